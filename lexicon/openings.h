// The table of named openings: 2,013 lines of play with code and name.
//
//   for (const Opening& o : openings()) ...   // {"C25", "Vienna Game", "e4 e5 Nc3"}
//
// Views into data embedded in the program; read on first use (well under a millisecond).
#ifndef PLYSCRIBE_LEXICON_OPENINGS_H_
#define PLYSCRIBE_LEXICON_OPENINGS_H_

#include <span>
#include <string_view>

namespace plyscribe::lexicon {

struct Opening {
  std::string_view eco;    // classification code, "B12"
  std::string_view name;   // "Caro-Kann, Advance Variation"
  std::string_view moves;  // SAN from the initial position, blank between, no move numbers
};

std::span<const Opening> openings();  // in the order of the table, by code

// What an opening is called beside the table's name: names that begin so are also said so.
struct OpeningAlias {
  std::string_view table, also;  // "Ruy Lopez", "Spanish"
};
std::span<const OpeningAlias> opening_aliases();

}  // namespace plyscribe::lexicon

#endif  // PLYSCRIBE_LEXICON_OPENINGS_H_
