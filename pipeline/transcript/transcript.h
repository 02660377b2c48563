// The product of the readers: timed words.
//
// Input: the bytes of a transcript in any known format. Output: a Transcript, words in time order.
// Words keep byte offsets into the source's own bytes, so that captions can be written back in place.
#ifndef PLYSCRIBE_TRANSCRIPT_TRANSCRIPT_H_
#define PLYSCRIBE_TRANSCRIPT_TRANSCRIPT_H_

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "support/result.h"

namespace plyscribe::transcript {

enum class Format : std::uint8_t { kStampedText, kSubRip, kWebVtt, kTtml, kCtm, kJson };

// Other words that the recogniser thought of.
struct Alternative {
  std::string text;    // one or more words, UTF-8
  double confidence;   // 0..1
};

// One spoken word. text has no surrounding punctuation; inner marks stay ("c-pawn", "0-0", "Nf3+",
// "O-O", "it's" with a plain apostrophe). NFC, figurines as piece letters.
struct Word {
  std::string text;
  std::string lead;    // opening marks before it: quote, bracket
  std::string trail;   // marks after it: "," "." "?!" "..." "—"; " -" where a dash stood free
  double start = 0;    // seconds; interpolated inside the caption unless timed
  double end = 0;
  double confidence = 1;  // 0..1; 1 where the recogniser gave none
  bool timed = false;     // the recogniser gave this word's own time
  std::uint32_t caption = 0;   // index into captions
  std::uint32_t sentence = 0;  // counts sentence ends (. ! ? …) before this word
  std::size_t offset = 0;      // bytes of the source this word came from; 0,0 where there are none
  std::size_t length = 0;
  std::vector<Alternative> alternatives;  // what else the recogniser thought of, best first
};

// A passage of the transcript with one time of its own, and its words.
struct Caption {
  double start = 0, end = 0;     // seconds
  std::uint32_t first_word = 0;  // words [first_word, last_word)
  std::uint32_t last_word = 0;
};

// The words of a lesson, in time order.
struct Transcript {
  Format format = Format::kStampedText;
  std::string title;   // first Markdown heading or metadata title, if any
  std::vector<Word> words;
  std::vector<Caption> captions;
  double duration = 0;  // seconds
};

// Which format the bytes have.
struct ReadOptions {
  bool detect = true;                     // else `format` is taken as given
  Format format = Format::kStampedText;
};

// name is used in messages only. Errors: one line "NAME:LINE: what was expected".
Result<Transcript> read_transcript(std::string_view bytes, std::string_view name,
                                   const ReadOptions& options = {});

const char* format_name(Format f);
Result<Format> parse_format_name(std::string_view name);
std::vector<std::string> format_names();  // of all formats

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_TRANSCRIPT_H_
