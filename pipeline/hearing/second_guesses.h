// Readings of what else the recogniser thought of (word.alternatives).
//
//   tokens       night  to  see  six          alternatives of "see": "c"
//   adds         "night to c six", as if it stood on the same tokens, dearer by how much less
//                likely the recogniser found "c" than "see"
//
// The whole lesson is read again with the likelier alternatives in place: with those of every
// second word, as one guess may be right and its neighbour wrong, and with all, as they may belong
// to one another. Linear in the words; nothing is done where there are no alternatives.
#ifndef PLYSCRIBE_HEARING_SECOND_GUESSES_H_
#define PLYSCRIBE_HEARING_SECOND_GUESSES_H_

#include <vector>

#include "hearing/reading.h"
#include "hearing/tokens.h"
#include "transcript/transcript.h"

namespace plyscribe::hearing {

// `tokens`: the transcript's own. Only readings that hold a word otherwise heard; no order.
std::vector<Reading> second_guesses(const transcript::Transcript& t,
                                    const std::vector<Token>& tokens, Script script);

}  // namespace plyscribe::hearing

#endif  // PLYSCRIBE_HEARING_SECOND_GUESSES_H_
