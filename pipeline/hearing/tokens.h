// Words cut into tokens, the steps on which readings and the search stand.
//
// Input: a Transcript. Output: tokens in order. "c-pawn" is two tokens, "14.Re1" one ("re1"),
// "exfgxf" two, "xx" two; every token knows its word. Of a word longer than
// kLongestWord only the head is kept, uncut.
#ifndef PLYSCRIBE_HEARING_TOKENS_H_
#define PLYSCRIBE_HEARING_TOKENS_H_

#include <cstdint>
#include <string>
#include <vector>

#include "transcript/transcript.h"

namespace plyscribe::hearing {

// How the recogniser writes: a dictation recogniser knows squares ("f5"), a word recogniser spells
// them in words of like sound ("f five", "have five").
enum class Script : std::uint8_t { kWritten, kSpokenWords };

struct Token {
  std::string norm;        // lower case, plain apostrophe
  std::string raw;         // as written
  std::string mark;        // punctuation after it, "" inside a word
  std::uint32_t word = 0;  // index into Transcript::words
  bool opens_paragraph = false;
  float pause = 0;         // seconds of silence before it, where words are timed
};

std::vector<Token> tokens_of(const transcript::Transcript& t);

}  // namespace plyscribe::hearing

#endif  // PLYSCRIBE_HEARING_TOKENS_H_
