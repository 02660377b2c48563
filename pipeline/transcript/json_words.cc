// Reader of JSON with words or segments, under many names for the same things: see json_entries.h.
#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "transcript/builder.h"
#include "transcript/clock.h"
#include "transcript/clock_repair.h"
#include "transcript/json_entries.h"
#include "transcript/nbest.h"
#include "transcript/readers.h"

namespace plyscribe::transcript {
namespace {

constexpr double kSegmentsBackwards = 10;  // seconds; two voices may overlap by so much
constexpr double kWordsBackwards = 60;     // a recogniser's clock may jump by so much
constexpr double kLongest = 1e6;

template <typename F>
void for_each_entry(std::vector<JsonEntry>& entries, const F& f) {
  for (JsonEntry& e : entries) {
    f(e);
    for_each_entry(e.words, f);
  }
}

// Seconds for one unit of the file's plain numbers. No word lasts ten seconds: where the middle one
// does, the numbers count milliseconds, or ticks of 100 ns.
double time_unit(std::vector<JsonEntry>& entries) {
  std::vector<double> lengths;
  for_each_entry(entries, [&](const JsonEntry& e) {
    if (!e.start || !e.end || e.start->in_seconds || !e.words.empty()) return;
    const auto words =
        1 + std::count(e.text.text.begin() + (e.text.text.empty() ? 0 : 1), e.text.text.end(), ' ');
    if (e.end->value > e.start->value)
      lengths.push_back((e.end->value - e.start->value) / static_cast<double>(words));
  });
  if (lengths.empty()) return 1;
  const auto middle = lengths.begin() + static_cast<std::ptrdiff_t>(lengths.size() / 2);
  std::nth_element(lengths.begin(), middle, lengths.end());
  return *middle > 1e5 ? 1e-7 : *middle > 10 ? 1e-3 : 1;
}

// Confidences come as 0..1, as percent, or as logarithms.
double confidence_unit(std::vector<JsonEntry>& entries) {
  double most = 0;
  for_each_entry(entries,
                 [&](const JsonEntry& e) { most = std::max(most, e.confidence.value_or(0)); });
  return most > 1.001 && most <= 100 ? 0.01 : 1;
}

double as_probability(double c, double unit) {
  return std::clamp(c < 0 ? std::exp(c) : c * unit, 0.0, 1.0);
}

bool is_word(const JsonEntry& e) {
  const std::size_t first = e.text.text.find_first_not_of(' ');
  return e.words.empty() &&
         (first == std::string::npos ||
          e.text.text.find_first_of(" \n\t", first) == std::string::npos ||
          e.text.text.find_last_not_of(" \n\t") < e.text.text.find_first_of(" \n\t", first));
}

class JsonWords {
 public:
  JsonWords(const Source& source, std::vector<JsonEntry> entries)
      : source_(source), entries_(std::move(entries)), builder_(source) {}

  Result<Transcript> read(const JsonValue& root) {
    const double unit = time_unit(entries_);
    const double scale = confidence_unit(entries_);
    for_each_entry(entries_, [&](JsonEntry& e) {
      for (auto* t : {&e.start, &e.end}) {
        if (*t) **t = {(*t)->value * ((*t)->in_seconds ? 1 : unit), true};
      }
      if (e.confidence) e.confidence = as_probability(*e.confidence, scale);
      for (Alternative& a : e.alternatives)
        a.confidence = a.confidence == -1 ? 0 : as_probability(a.confidence, scale);
      if (!e.start && !e.words.empty()) e.start = e.words.front().start;
      if (!e.end && !e.words.empty()) e.end = e.words.back().end;
    });
    const bool words_only = std::all_of(entries_.begin(), entries_.end(), is_word);
    if (auto error = put_in_order(entries_, words_only)) return *error;
    for (JsonEntry& e : entries_) {
      if (auto error = put_in_order(e.words, true)) return *error;
    }
    for (const JsonEntry& e : entries_) {
      if (words_only) {
        builder_.word_in_flow(e.text, e.start->value, end_of(e), e.confidence.value_or(1),
                              e.alternatives);
      } else {
        segment(e);
      }
    }
    if (root.is_object()) {
      if (const JsonValue* t = root.member("title"); t != nullptr && t->is_string()) {
        builder_.title(normal_form(json_string(source_, *t)).text);
      }
      if (const JsonValue* d = root.member("duration");
          d != nullptr && d->is_number() && d->number * unit < 1e6) {
        builder_.duration(d->number * unit);
      }
    }
    return builder_.finish(Format::kJson);
  }

 private:
  // Entries without a start follow the one before. Times must not run backwards: segments that
  // overlap a little are put in order, words stay in the order they were said and get their times
  // mended.
  std::optional<Error> put_in_order(std::vector<JsonEntry>& entries, bool words) {
    double last = 0;
    for (JsonEntry& e : entries) {
      if (e.start && !(e.start->value >= 0 && e.start->value < kLongest)) {
        return source_.expected(e.at, "a start time of 0 or more, in seconds or milliseconds");
      }
      if (e.start && e.start->value < last - (words ? kWordsBackwards : kSegmentsBackwards)) {
        return source_.expected(e.at, "a start time not before " + show_clock(last) + ", found " +
                                          show_clock(e.start->value));
      }
      if (e.start) last = std::max(last, e.start->value);
      e.start = e.start.value_or(JsonTime{last, true});
      if (e.end && !(e.end->value >= e.start->value && e.end->value < kLongest)) e.end.reset();
    }
    const auto earlier = [](const JsonEntry& a, const JsonEntry& b) {
      return a.start->value < b.start->value;
    };
    if (!words) {
      std::stable_sort(entries.begin(), entries.end(), earlier);
    } else if (!std::is_sorted(entries.begin(), entries.end(), earlier)) {
      std::vector<WordTime> times;
      for (const JsonEntry& e : entries)
        times.push_back({e.start->value, e.end ? e.end->value : e.start->value});
      mend_clock(times);
      for (std::size_t i = 0; i < times.size(); ++i) {
        entries[i].start->value = times[i].start;
        if (times[i].mended) {
          entries[i].end.reset();
        } else if (entries[i].end) {
          entries[i].end->value = times[i].end;
        }
      }
    }
    return std::nullopt;
  }

  static double end_of(const JsonEntry& e) { return e.end ? e.end->value : Builder::kOpen; }

  void segment(const JsonEntry& e) {
    const double start = e.start->value;
    builder_.caption(start, end_of(e));
    const std::size_t first = builder_.word_count();
    if (e.words.empty()) {
      builder_.text(e.text);
    } else {
      double last = start;
      for (const JsonEntry& w : e.words) {
        if (w.start) last = w.start->value;
        builder_.word(w.text, last, end_of(w), w.confidence.value_or(1), w.alternatives);
      }
    }
    for (const Alternative& a : e.alternatives) attach_alternative(a, builder_.words_from(first));
    if (e.words.empty() && e.confidence) {
      for (Word& w : builder_.words_from(first)) w.confidence = *e.confidence;
    }
  }

  const Source& source_;
  std::vector<JsonEntry> entries_;
  Builder builder_;
};

}  // namespace

Result<Transcript> read_json_words(const Source& source) {
  auto root = parse_json(source);
  if (!root) return root.error();
  std::vector<JsonEntry> entries = find_entries(source, *root);
  if (entries.empty())
    return source.expected(
        0,
        "JSON with timed words or segments, such as {\"words\": [{\"word\", \"start\", \"end\"}]}");
  return JsonWords(source, std::move(entries)).read(*root);
}

}  // namespace plyscribe::transcript
