// The talk cut into sentences that phrases are looked for in, with the moves marked.
//
//   "The only move is queen to d2."      "the only move is <m> ."
//
// <m> a move that was played or named again, <i> one that is only thought of, <l> one that fits
// nowhere, <p> the start of a paragraph. Marks are words of their own; "it's" is "it 's".
// Every piece of the sentence knows the words it came from.
#ifndef PLYSCRIBE_LESSON_SENTENCES_H_
#define PLYSCRIBE_LESSON_SENTENCES_H_

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "lesson/lesson.h"
#include "transcript/transcript.h"

namespace plyscribe::lesson {

struct Piece {
  enum class Kind : std::uint8_t { kWord, kMove, kIdea, kLoose };
  Kind kind = Kind::kWord;
  std::size_t begin = 0, end = 0;               // bytes of the sentence's text, marks behind it too
  std::uint32_t first_word = 0, last_word = 0;  // of the transcript
  NodeId node = 0;  // kMove: the move; kIdea: the position it is said at
};

struct Sentence {
  std::string text;
  std::vector<Piece> pieces;  // in order

  std::uint32_t first_word() const { return pieces.front().first_word; }
  std::uint32_t last_word() const { return pieces.back().last_word; }
  // The piece that holds a byte of the text, or the nearest one before it.
  std::size_t piece_at(std::size_t byte) const;
};

std::vector<Sentence> sentences_of(const transcript::Transcript& transcript, const Lesson& lesson);

// The words with their marks, as they were written: "It's fine, really."
Span quote(const transcript::Transcript& transcript, std::uint32_t first, std::uint32_t last);

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_SENTENCES_H_
