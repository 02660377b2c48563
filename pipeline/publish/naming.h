// Do words do nothing but name a move?
//
//   names_only("night f three")     yes: it can be written Nf3 in the middle of any sentence
//   names_only("takes, takes")      yes
//   names_only("the rook goes to e1"), ("we castle"), ("with the pawn")     no: they are sentences'
//   words
//
// Misheard words count as names. What verbs, articles and castling are, grammar/vocabulary.tsv
// says.
#ifndef PLYSCRIBE_PUBLISH_NAMING_H_
#define PLYSCRIBE_PUBLISH_NAMING_H_

#include <string_view>

namespace plyscribe::publish {

bool names_only(std::string_view words);

// Are they the move word by word, so that writing it decides nothing? "knight takes e5", Nxe5.
bool spells(std::string_view words, std::string_view san);

// Nothing but "takes": it needs no subject, so it may have one in front of it.
bool bare_capture(std::string_view words);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_NAMING_H_
