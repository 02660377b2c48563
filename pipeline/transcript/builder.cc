#include "transcript/builder.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "support/limits.h"
#include "transcript/clock_repair.h"
#include "transcript/nbest.h"
#include "transcript/speech_weight.h"

namespace plyscribe::transcript {
namespace {

constexpr double kForever = 1e9;  // seconds
constexpr double kWordsPerMinute = 165;

// A span this many times slower than the lesson's pace ends in silence. An end that was stated is
// believed longer than one that is only where the next caption starts.
constexpr double kSlowest = 1.5;
constexpr double kSlowestStated = 4;

// Does a caption end between two words? `length` since its start, `silence` between them, marks
// after the first.
bool parts_flow(double length, double silence, std::string_view marks) {
  return silence >= 1.0 || length > 12 || (length > 4 && (silence >= 0.25 || ends_sentence(marks)));
}

}  // namespace

void Builder::caption(double start, double end) {
  const auto at = static_cast<std::uint32_t>(out_.words.size());
  out_.captions.push_back({start, end, at, at});
  open_end_.push_back(end < start);
  open_span(start, kOpen);
}

Builder::Span& Builder::open_span(double start, double end) {
  const std::size_t at = out_.words.size();
  spans_.push_back({start, end, at, at, out_.captions.size() - 1});
  return spans_.back();
}

void Builder::span(double start) {
  if (out_.captions.empty()) caption(start, kOpen);
  open_span(start, kOpen).marked = true;
}

void Builder::tokens(std::vector<Token> tokens) {
  too_many_ = too_many_ || tokens.size() > kMostWords;  // split_words gave up
  for (Token& t : tokens) add(std::move(t));
}

void Builder::add(Token t) {
  if (t.text.empty()) {
    if (!t.trail.empty() && !out_.words.empty()) {
      out_.words.back().trail += t.trail;
    } else {
      lead_ += t.lead + t.trail;
    }
    return;
  }
  if (out_.words.size() == kMostWords) {
    too_many_ = true;
    return;
  }
  if (out_.captions.empty()) caption(0, kOpen);
  Word w;
  w.text = std::move(t.text);
  w.lead = std::exchange(lead_, {}) + t.lead;
  w.trail = std::move(t.trail);
  w.caption = static_cast<std::uint32_t>(out_.captions.size() - 1);
  const Range bytes = source_.in_bytes(t.origin);
  w.offset = bytes.begin;
  w.length = bytes.end - bytes.begin;
  out_.words.push_back(std::move(w));
  spans_.back().last = out_.words.size();
  out_.captions.back().last_word = static_cast<std::uint32_t>(out_.words.size());
}

void Builder::word(const MappedText& text, double start, double end, double confidence,
                   std::vector<Alternative> alternatives) {
  if (out_.captions.empty()) caption(start, kOpen);
  const std::size_t first = out_.words.size();
  open_span(start, end).exact = true;
  tokens(split_words(text));
  for (Word& w : words_from(first)) w.confidence = std::clamp(confidence, 0.0, 1.0);
  if (out_.words.size() == first + 1) {
    Word& w = out_.words.back();
    w.timed = true;
    w.alternatives = tidy_alternatives(std::move(alternatives), w.text);
  } else if (out_.words.size() == first) {
    spans_.pop_back();  // marks only
  }
}

void Builder::word_in_flow(const MappedText& text, double start, double end, double confidence,
                           std::vector<Alternative> alternatives) {
  if (!in_flow_ ||
      parts_flow(start - out_.captions.back().start, start - flow_end_, out_.words.back().trail)) {
    end_flow();
    caption(start, kOpen);
    in_flow_ = true;
  }
  word(text, start, end, confidence, std::move(alternatives));
  flow_end_ = std::max({flow_end_, start, end});
}

void Builder::end_flow() {
  if (!in_flow_) return;
  out_.captions.back().end = std::max(flow_end_, out_.captions.back().start);
  open_end_.back() = false;
}

// Seconds for one unit of weight: the median over captions that are long enough to tell, so that
// silences and hasty captions don't count.
double Builder::pace(double pause) const {
  std::vector<double> paces;
  for (std::size_t c = 0; c < out_.captions.size(); ++c) {
    const Caption& k = out_.captions[c];
    const double end = !open_end_[c]                  ? k.end
                       : c + 1 < out_.captions.size() ? out_.captions[c + 1].start
                                                      : k.start;
    const double length = end - k.start - (open_end_[c] ? pause : 0);
    if (length <= 0 || k.last_word - k.first_word < 3) continue;
    double sum = 0;
    for (std::size_t i = k.first_word; i < k.last_word; ++i) sum += speech_weight(out_.words[i]);
    paces.push_back(length / sum);
  }
  const double usual = 60.0 / kWordsPerMinute / kMeanSpeechWeight;
  if (paces.empty()) return usual;
  const auto middle = paces.begin() + static_cast<std::ptrdiff_t>(paces.size() / 2);
  std::nth_element(paces.begin(), middle, paces.end());
  return std::clamp(*middle, usual / 3, usual * 3);
}

void Builder::close_captions(double pace, double pause) {
  for (std::size_t c = 0; c < out_.captions.size(); ++c) {
    Caption& k = out_.captions[c];
    if (!open_end_[c]) continue;
    if (c + 1 < out_.captions.size()) {
      k.end = std::max(k.start, out_.captions[c + 1].start);
      continue;
    }
    double sum = 0;
    for (std::size_t i = k.first_word; i < k.last_word; ++i) sum += speech_weight(out_.words[i]);
    k.end = k.start + pace * sum + pause;
  }
}

void Builder::share_times(double pace, double pause) {
  std::vector<double> next_start(out_.captions.size(),
                                 kForever);  // of the next caption that has words
  for (std::size_t c = out_.captions.size(); c-- > 1;) {
    const Caption& k = out_.captions[c];
    next_start[c - 1] = k.first_word < k.last_word ? k.start : next_start[c];
  }
  for (std::size_t s = 0; s < spans_.size(); ++s) {
    Span& span = spans_[s];
    if (span.first == span.last) continue;
    const Caption& k = out_.captions[span.caption];
    const bool own_end = span.exact && span.end >= span.start;
    const double slowest = open_end_[span.caption] ? kSlowest : kSlowestStated;
    if (span.end < span.start) {
      const bool last = s + 1 == spans_.size() || spans_[s + 1].caption != span.caption;
      span.end = last ? k.end : spans_[s + 1].start;
      // Where captions overlap, the words of this one come before the words of the next.
      if (last && next_start[span.caption] > span.start)
        span.end = std::min(span.end, next_start[span.caption]);
      if (last && open_end_[span.caption])
        span.end = std::max(span.end - pause, (span.start + span.end) / 2);
    }
    double sum = 0;
    for (std::size_t i = span.first; i < span.last; ++i) sum += speech_weight(out_.words[i]);
    double length = std::max(0.0, span.end - span.start);
    if (!own_end) length = std::min(length, slowest * pace * sum);
    if (span.marked && span.last - span.first == 1) out_.words[span.first].timed = true;
    double t = span.start;
    for (std::size_t i = span.first; i < span.last; ++i) {
      out_.words[i].start = t;
      t += length * speech_weight(out_.words[i]) / sum;
      out_.words[i].end = t;
    }
  }
}

// Captions with one start, and words whose own times contradict their captions'.
void Builder::mend_order() {
  const auto earlier = [](const Word& a, const Word& b) { return a.start < b.start; };
  if (std::is_sorted(out_.words.begin(), out_.words.end(), earlier)) return;
  std::vector<WordTime> times;
  for (const Word& w : out_.words) times.push_back({w.start, w.end});
  mend_clock(times);
  for (std::size_t i = 0; i < times.size(); ++i) {
    Word& w = out_.words[i];
    w.start = times[i].start;
    w.end = times[i].end;
    w.timed = w.timed && !times[i].mended;
  }
}

Result<Transcript> Builder::finish(Format format, double pause) {
  if (too_many_) {
    return source_.expected(
        0, "a lesson of at most " + std::to_string(kMostWords) + " words, found more");
  }
  if (out_.words.empty()) return source_.expected(0, "a transcript with words in it");
  end_flow();
  if (!lead_.empty()) out_.words.back().trail += lead_;
  const double usual = pace(pause);
  close_captions(usual, pause);
  share_times(usual, pause);
  mend_order();

  std::uint32_t sentence = 0;
  for (Word& w : out_.words) {
    w.sentence = sentence;
    sentence += ends_sentence(w.trail) ? 1 : 0;
    out_.duration = std::max(out_.duration, w.end);
  }
  std::vector<Caption> spoken;  // captions without words are dropped
  for (const Caption& k : out_.captions) {
    if (k.first_word == k.last_word) continue;
    for (std::size_t i = k.first_word; i < k.last_word; ++i) {
      out_.words[i].caption = static_cast<std::uint32_t>(spoken.size());
    }
    out_.duration = std::max(out_.duration, k.end);
    spoken.push_back(k);
  }
  out_.captions = std::move(spoken);
  out_.format = format;
  return std::move(out_);
}

}  // namespace plyscribe::transcript
