// Moves in the sound of ordinary words: "nine at three" is knight f three, "before" b four.
//
// The units themselves are added by add_units_by_ear (units.h). This is the other side of the scale:
// what the same words cost as ordinary talk. A reading by ear is worth background - best.
#ifndef PLYSCRIBE_HEARING_EAR_H_
#define PLYSCRIBE_HEARING_EAR_H_

#include <vector>

#include "hearing/tokens.h"

namespace plyscribe::hearing {

// -log p of every token in a lesson's talk that names no move. Chess words are ordinary there.
std::vector<float> token_backgrounds(const std::vector<Token>& tokens);

// "sixty five" is two squares as often as a number: tens become a digit and "t" ("six", "t").
void split_tens(std::vector<Token>& tokens);

}  // namespace plyscribe::hearing

#endif  // PLYSCRIBE_HEARING_EAR_H_
