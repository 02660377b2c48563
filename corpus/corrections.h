// How many corrections a person needs until the tree of a lesson is right: an oracle does them.
//
//   Corrections c = *correct(gold, transcript);      c.fixes.size(), c.left.empty()
//
// Again and again: decode; among the edges by which the tree and the gold tree differ, take the one
// that was said first; settle its words by one pin; decode again with all pins. A move at the wrong
// place or not placed is pinned to its line, a move where none was meant to "no move", a start that
// no gold line begins with to the gold start. It ends when the trees agree or no pin is left to
// set. Edges are compared as publish/score.h does: by position and move, unsaid ones free.
#ifndef PLYSCRIBE_CORPUS_CORRECTIONS_H_
#define PLYSCRIBE_CORPUS_CORRECTIONS_H_

#include <string>
#include <vector>

#include "corpus/gold.h"
#include "resolve/decode.h"

namespace plyscribe::corpus {

struct Fix {
  double t = 0;       // seconds
  std::string heard;  // the words; empty for the start
  std::string what;   // "is Nf3 in 1 e4 2 e5 ...", "is no move", "the start is ..."
};

struct Corrections {
  std::vector<Fix> fixes;
  std::size_t spoken = 0;              // edges of the gold tree that were said
  std::vector<std::string> left;       // what no pin could mend
  std::vector<resolve::Pin> pins;      // all that were set, as the last decode had them
  std::string start;                   // the start pin, or empty
  std::vector<double> decode_seconds;  // of the processor: the first decode, then one for each fix
  double per_hundred() const;          // fixes for 100 spoken edges
};

// Errors: those of the decoder.
Result<Corrections> correct(const Gold& gold, const transcript::Transcript& transcript);

}  // namespace plyscribe::corpus

#endif  // PLYSCRIBE_CORPUS_CORRECTIONS_H_
