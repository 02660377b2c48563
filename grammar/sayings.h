// What a sentence says about the moves and the position: judgements, advice, remarks.
//
//   for (const Found& f : sayings_in("<m> is a blunder ,"))      f.nag_white == 4, f.move == npos
//   sayings_in("the only move is <m>")                           f.nag_white == 8, f.move == 17
//
// The sentence is written as sayings.tsv says, which holds all the phrases. Of two that overlap and
// speak of the same sort of thing, the longer counts; negated ones don't.
#ifndef PLYSCRIBE_GRAMMAR_SAYINGS_H_
#define PLYSCRIBE_GRAMMAR_SAYINGS_H_

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace plyscribe::grammar {

// The sort of thing that is said.
enum class Saying : std::uint8_t { kMove, kPosition, kAdvice, kRemark, kReference, kTalk };

enum class CounselKind : std::uint8_t { kRecommended, kPlayable, kAvoided, kForCompleteness };

enum class SpokenOf : std::uint8_t { kHere, kLine, kNext };

struct Phrase {
  Saying saying = Saying::kTalk;
  int nag_white = 0, nag_black = 0;  // kMove, kPosition; the same number where no side is meant
  bool of_other_side = false;        // "Black is lost" judges White's position
  enum class Whose : std::uint8_t { kOfLesson, kToMove, kBehind };
  Whose whose = Whose::kOfLesson;                   // where no side is named; kBehind: in material
  CounselKind counsel = CounselKind::kRecommended;  // kAdvice
  SpokenOf of = SpokenOf::kHere;
};

struct Found {
  const Phrase* phrase = nullptr;             // never kTalk
  std::size_t begin = 0, end = 0;             // bytes of the sentence
  std::size_t move = std::string_view::npos;  // the byte at which the move it speaks of stands
  std::string side;                           // the word that names a side, or empty
};

// In the order of the sentence.
std::vector<Found> sayings_in(std::string_view sentence);

// A word as sentences hold it: lower case is the caller's; "don't" -> "do n't", "it's" -> "it 's".
std::string parted_word(std::string_view word);

}  // namespace plyscribe::grammar

#endif  // PLYSCRIBE_GRAMMAR_SAYINGS_H_
