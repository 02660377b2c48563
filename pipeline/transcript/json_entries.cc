#include "transcript/json_entries.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <utility>

#include "transcript/clock.h"

namespace plyscribe::transcript {
namespace {

using Keys = std::initializer_list<std::string_view>;

// Keys are compared without case, "_" and "-". Where a list has several, the first that is there
// counts.
constexpr std::array kText = {"punctuatedword", "word",    "text",       "w",       "token",
                              "value",          "content", "transcript", "display", "utf8"};
constexpr std::array kStart = {
    "start",       "s",           "from",         "begin",    "starttime",    "startms",
    "starttimems", "startoffset", "begintime",    "startsec", "startseconds", "tstart",
    "tstartms",    "ts",          "t0",           "t",        "time",         "offset",
    "offsetms",    "toffsetms",   "offsetinticks"};
constexpr std::array kEnd = {"end",       "e",         "to",     "endtime",    "endms",
                             "endtimems", "endoffset", "endsec", "endseconds", "tend",
                             "endts",     "t1",        "stop",   "until"};
constexpr std::array kDuration = {"duration",   "dur",         "d",
                                  "durationms", "ddurationms", "durationinticks"};
constexpr std::array kBothTimes = {"timestamps", "timestamp", "time",
                                   "interval",   "range",     "offsets"};
constexpr std::array kConfidence = {"confidence", "conf", "probability", "prob", "p", "score", "c"};
constexpr std::array kLogProbability = {"logprob", "avglogprob", "logprobability"};
constexpr std::array kAlternatives = {"alternatives", "nbest", "hypotheses"};
constexpr std::array kWords = {"words", "tokens", "items", "elements", "result", "results", "segs"};
constexpr std::array kLists = {"segments", "utterances", "monologues", "transcription", "results",
                               "result",   "items",      "words",      "captions",      "cues",
                               "events",   "channels",   "sentences",  "transcript"};

template <std::size_t N>
const JsonValue* first_of(const JsonValue& object, const std::array<const char*, N>& keys,
                          auto accept) {
  for (const char* key : keys) {
    const JsonValue* v = object.member(key);
    if (v != nullptr && accept(*v)) return v;
  }
  return nullptr;
}

bool is_scalar(const JsonValue& v) { return v.is_string() || v.is_number(); }
bool is_number(const JsonValue& v) { return v.is_number(); }
bool is_string(const JsonValue& v) { return v.is_string(); }
bool is_list(const JsonValue& v) { return v.is_array() && !v.items.empty(); }

bool has_time(const JsonEntry& e) {
  return e.start || std::any_of(e.words.begin(), e.words.end(),
                                [](const JsonEntry& w) { return w.start.has_value(); });
}

std::string_view trim(std::string_view s) {
  const std::size_t first = s.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(" \t\r\n") - first + 1);
}

class Finder {
 public:
  explicit Finder(const Source& source) : source_(source) {}

  std::vector<JsonEntry> find(const JsonValue& v) const {
    if (v.is_array()) return list(v);
    if (!v.is_object()) return {};
    for (const char* key : kLists) {
      if (const JsonValue* child = v.member(key)) {
        if (auto found = timed(find(*child)); !found.empty()) return found;
      }
    }
    if (auto self = entry(v); self && has_time(*self)) {
      std::vector<JsonEntry> found;
      found.push_back(std::move(*self));
      return found;
    }
    for (const JsonValue& child : v.items) {
      if (auto found = timed(find(child)); !found.empty()) return found;
    }
    return {};
  }

 private:
  static std::vector<JsonEntry> timed(std::vector<JsonEntry> entries) {
    if (std::none_of(entries.begin(), entries.end(), has_time)) entries.clear();
    return entries;
  }

  std::vector<JsonEntry> list(const JsonValue& array) const {
    std::vector<JsonEntry> entries;
    for (const JsonValue& v : array.items) {
      if (auto e = v.is_array() ? tuple(v) : entry(v)) {
        entries.push_back(std::move(*e));
      } else {
        std::vector<JsonEntry> inner = find(v);
        std::move(inner.begin(), inner.end(), std::back_inserter(entries));
      }
    }
    join_pieces(entries);
    return entries;
  }

  // ["word", start, end] or [start, end, "word"], perhaps with a confidence after the times.
  std::optional<JsonEntry> tuple(const JsonValue& v) const {
    JsonEntry e;
    std::vector<double> numbers;
    for (const JsonValue& item : v.items) {
      if (item.is_string() && e.text.text.empty()) {
        e.text = json_string(source_, item);
      } else if (item.is_number()) {
        numbers.push_back(item.number);
      } else {
        return std::nullopt;
      }
    }
    if (e.text.text.empty() || numbers.size() < 2) return std::nullopt;
    e.start = JsonTime{numbers[0]};
    e.end = JsonTime{numbers[1]};
    if (numbers.size() > 2) e.confidence = numbers[2];
    e.at = v.raw.begin;
    return e;
  }

  std::optional<JsonEntry> entry(const JsonValue& v) const {
    if (!v.is_object()) return std::nullopt;
    JsonEntry e;
    e.at = v.raw.begin;
    if (const JsonValue* text = first_of(v, kText, is_string)) e.text = json_string(source_, *text);
    if (const JsonValue* words = first_of(v, kWords, is_list)) e.words = timed(list(*words));
    read_confidence(v, e);
    if (const JsonValue* all = first_of(v, kAlternatives, is_list)) read_alternatives(*all, e);
    read_times(v, e);
    if (e.words.empty() && (trim(e.text.text).empty() || e.text.text.starts_with("[_")))
      return std::nullopt;
    return e;
  }

  // Without words of its own, an entry says what its first alternative says.
  void read_alternatives(const JsonValue& all, JsonEntry& e) const {
    const bool has_own = !trim(e.text.text).empty() || !e.words.empty();
    for (const JsonValue& v : all.items) {
      if (v.is_string()) {
        MappedText text = json_string(source_, v);
        if (!has_own && e.text.text.empty()) {
          e.text = std::move(text);
        } else {
          e.alternatives.push_back({std::string(trim(text.text)), -1});
        }
        continue;
      }
      auto other = entry(v);
      if (!other) continue;
      if (!has_own && e.text.text.empty() && e.words.empty()) {
        e.text = std::move(other->text);
        e.words = std::move(other->words);
        if (other->confidence) e.confidence = other->confidence;
        if (!e.start) e.start = other->start;
        if (!e.end) e.end = other->end;
      } else if (!other->text.text.empty()) {
        e.alternatives.push_back(
            {std::string(trim(other->text.text)), other->confidence.value_or(-1)});
      }
    }
    std::erase_if(e.alternatives, [&](const Alternative& a) {
      return a.text.empty() || a.text == trim(e.text.text);
    });
  }

  void read_confidence(const JsonValue& v, JsonEntry& e) const {
    if (const JsonValue* c = first_of(v, kConfidence, is_scalar)) {
      e.confidence =
          c->is_number() ? c->number : parse_decimal(trim(json_string(source_, *c).text));
    } else if (const JsonValue* log = first_of(v, kLogProbability, is_number)) {
      e.confidence = std::exp(std::min(log->number, 0.0));
    }
  }

  void read_times(const JsonValue& v, JsonEntry& e) const {
    if (const JsonValue* t = first_of(v, kStart, is_scalar)) e.start = time(*t);
    if (const JsonValue* t = first_of(v, kEnd, is_scalar)) e.end = time(*t);
    for (const char* key : kBothTimes) {
      const JsonValue* both = e.start ? nullptr : v.member(key);
      if (both == nullptr) continue;
      if (both->is_array() && both->items.size() == 2 && is_scalar(both->items[0])) {
        e.start = time(both->items[0]);
        if (is_scalar(both->items[1])) e.end = time(both->items[1]);
      } else if (both->is_object()) {
        read_times(*both, e);
      }
      if (std::string_view(key) == "offsets") {  // milliseconds beside clock times
        for (auto* t : {&e.start, &e.end}) {
          if (*t && !(*t)->in_seconds) *t = JsonTime{(*t)->value / 1000, true};
        }
      }
    }
    if (e.start && !e.end) {
      if (const JsonValue* d = first_of(v, kDuration, is_scalar)) {
        if (const auto length = time(*d))
          e.end = JsonTime{e.start->value + length->value, e.start->in_seconds};
      }
    }
  }

  // 12.5, "12.5", "12.5s", "300ms", "PT12.5S", "0:12.5".
  std::optional<JsonTime> time(const JsonValue& v) const {
    const double unit = v.key.ends_with("ms") ? 1e-3 : v.key.ends_with("inticks") ? 1e-7 : 0;
    const auto with_unit = [&](double t) {
      return unit > 0 ? JsonTime{t * unit, true} : JsonTime{t, false};
    };
    if (v.is_number()) return with_unit(v.number);
    const MappedText mapped = json_string(source_, v);
    std::string_view s = trim(mapped.text);
    if (const auto t = parse_decimal(s)) return with_unit(*t);
    if (const auto t = parse_clock(s)) return JsonTime{*t, true};
    if (s.starts_with("PT")) s.remove_prefix(2);
    if (s.ends_with("ms")) {
      if (const auto t = parse_decimal(s.substr(0, s.size() - 2))) return JsonTime{*t / 1000, true};
    } else if (s.ends_with("s") || s.ends_with("S")) {
      if (const auto t = parse_decimal(s.substr(0, s.size() - 1))) return JsonTime{*t, true};
    }
    return std::nullopt;
  }

  // Recognisers that work in word pieces begin each new word with a blank: " N", "f3" is one word.
  // It has no place of its own in the source.
  static void join_pieces(std::vector<JsonEntry>& entries) {
    bool blank_starts = false;
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const std::string& t = entries[i].text.text;
      if (!entries[i].words.empty() || trim(t).find_first_of(" \t\n") != std::string_view::npos)
        return;
      blank_starts = blank_starts || (i > 0 && t.starts_with(' '));
    }
    if (!blank_starts) return;
    std::vector<JsonEntry> joined;
    for (JsonEntry& e : entries) {
      if (joined.empty() || e.text.text.starts_with(' ')) {
        joined.push_back(std::move(e));
        continue;
      }
      JsonEntry& word = joined.back();
      word.text.text += e.text.text;
      word.text.from.assign(word.text.text.size(), {});
      if (e.end) word.end = e.end;
      if (e.confidence) word.confidence = std::min(*e.confidence, word.confidence.value_or(1));
    }
    entries = std::move(joined);
  }

  const Source& source_;
};

}  // namespace

std::vector<JsonEntry> find_entries(const Source& source, const JsonValue& root) {
  return Finder(source).find(root);
}

}  // namespace plyscribe::transcript
