// For the tests of this folder: what was read, in one line.
#ifndef PLYSCRIBE_TRANSCRIPT_TEST_READING_H_
#define PLYSCRIBE_TRANSCRIPT_TEST_READING_H_

#include <fmt/format.h>

#include <string>
#include <string_view>

#include "transcript/transcript.h"

namespace plyscribe::transcript {

// "So after (Nf3)," with the captions parted by " / ", or "! " and the error.
inline std::string show_words(const Result<Transcript>& r) {
  if (!r) return "! " + r.error().message;
  std::string s;
  for (std::size_t i = 0; i < r->words.size(); ++i) {
    const Word& w = r->words[i];
    if (i > 0) s += w.caption == r->words[i - 1].caption ? " " : " / ";
    s += w.lead + w.text + w.trail;
  }
  return s;
}

// "So@3.00 after@3.40", with "=" for "@" where the word has its own time.
inline std::string show_times(const Result<Transcript>& r) {
  if (!r) return "! " + r.error().message;
  std::string s;
  for (const Word& w : r->words) {
    s += fmt::format("{}{}{}{:.2f}", s.empty() ? "" : " ", w.text, w.timed ? "=" : "@", w.start);
  }
  return s;
}

// "3-5.5 8-9": the captions.
inline std::string show_captions(const Result<Transcript>& r) {
  if (!r) return "! " + r.error().message;
  std::string s;
  for (const Caption& c : r->captions)
    s += fmt::format("{}{:g}-{:g}", s.empty() ? "" : " ", c.start, c.end);
  return s;
}

inline Result<Transcript> read_as(Format format, std::string_view text) {
  return read_transcript(text, "t", {.detect = false, .format = format});
}

// What holds of every transcript, whatever it was read from: "" or what is wrong.
inline std::string find_fault(const Transcript& t, std::string_view source) {
  double last = 0;
  std::uint32_t sentence = 0;
  for (std::size_t i = 0; i < t.words.size(); ++i) {
    const Word& w = t.words[i];
    const auto fault = [&](std::string_view what) {
      return fmt::format("word {} \"{}\": {}", i, w.text, what);
    };
    if (w.text.empty()) return fault("empty");
    if (!(w.start >= 0 && w.start < 1e7 && w.end >= w.start)) return fault("time");
    if (w.start < last) return fault("order");
    last = w.start;
    if (!(w.confidence >= 0 && w.confidence <= 1)) return fault("confidence");
    if (w.sentence < sentence || w.sentence > sentence + 1) return fault("sentence");
    sentence = w.sentence;
    if (w.caption >= t.captions.size()) return fault("caption");
    const Caption& c = t.captions[w.caption];
    if (i < c.first_word || i >= c.last_word) return fault("not in its caption");
    if (w.offset + w.length > source.size()) return fault("bytes");
  }
  for (const Caption& c : t.captions) {
    if (c.first_word >= c.last_word) return "empty caption";
  }
  return t.words.empty() ? "no words" : "";
}

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_TEST_READING_H_
