// A correction that a person made: what a stretch of the words is. The search honours it exactly.
//
//   words 40..43 are the move Bd2, wherever it fits        {40, 43, Pin::Kind::kMove, "Bd2", {}}
//   words 40..43 name the last move of 1. e4 e5 2. Nf3     {40, 43, Pin::Kind::kLine, "", {e4, e5, Nf3}}
//   words 40..43 name no move                              {40, 43, Pin::Kind::kNoMove, "", {}}
//
// Lines are SAN from the lesson's start position, so that a pin outlives any other correction; a
// line pin fixes move and parent at once, whether the move is new there or already in the tree.
// What cannot hold (an illegal line, two pins on one word) is reported, never half done.
#ifndef PLYSCRIBE_RESOLVE_PIN_H_
#define PLYSCRIBE_RESOLVE_PIN_H_

#include <cstdint>
#include <string>
#include <vector>

namespace plyscribe::resolve {

// A correction: what the words of a mention are.
struct Pin {
  enum class Kind : std::uint8_t { kMove, kLine, kNoMove };

  std::uint32_t first_word = 0, last_word = 0;  // [first_word, last_word) of the transcript
  Kind kind = Kind::kNoMove;
  std::string san;                // kMove
  std::vector<std::string> line;  // kLine: SAN from the start position, the named move last
  bool operator==(const Pin&) const = default;
};

// A pin that no reading of the lesson could keep, and why.
struct UnheldPin {
  std::size_t pin = 0;  // index into DecodeOptions::pins
  std::string why;      // in words, for a person
};

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_PIN_H_
