// Numbers in digits, as they are said.
#ifndef PLYSCRIBE_LEXICON_SPELL_NUMBER_H_
#define PLYSCRIBE_LEXICON_SPELL_NUMBER_H_

#include <string>
#include <string_view>
#include <vector>

namespace plyscribe::lexicon {

// The ways to say a row of digits, words with blanks between, the likeliest first:
//   "5"    -> "five"
//   "86"   -> "eighty six", "eight six"
//   "2011" -> "two thousand eleven", "twenty eleven", "two zero one one"
//   "1907" -> "nineteen oh seven", "one thousand nine hundred seven", "one nine zero seven"
// More than six digits, or a leading zero: digit by digit only. digits holds nothing else.
std::vector<std::string> spell_number(std::string_view digits);

}  // namespace plyscribe::lexicon

#endif  // PLYSCRIBE_LEXICON_SPELL_NUMBER_H_
