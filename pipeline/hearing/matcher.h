// The grammar's ways of saying a move, tried on the units of the tokens.
#ifndef PLYSCRIBE_HEARING_MATCHER_H_
#define PLYSCRIBE_HEARING_MATCHER_H_

#include <vector>

#include "hearing/reading.h"
#include "hearing/tokens.h"

namespace plyscribe::hearing {

// Every reading of every stretch of tokens, in no order; what the words cost as ordinary talk is
// not filled in. Cost: linear in the tokens.
std::vector<Reading> read_tokens(const std::vector<Token>& tokens, Script script);

}  // namespace plyscribe::hearing

#endif  // PLYSCRIBE_HEARING_MATCHER_H_
