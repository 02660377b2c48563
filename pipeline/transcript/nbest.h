// Second guesses of a recogniser, laid beside its first.
#ifndef PLYSCRIBE_TRANSCRIPT_NBEST_H_
#define PLYSCRIBE_TRANSCRIPT_NBEST_H_

#include <span>
#include <string>
#include <vector>

#include "transcript/transcript.h"

namespace plyscribe::transcript {

// Gives words the readings that another transcript of the same stretch has in their place.
//
//   words       knight  d5  takes          other "night be five takes"
//   gets        night   be five  -
//
// Words and readings pair up from the left; a last word gets what is left over. Words that the
// other transcript leaves out, or has more of, change nothing. Cost: product of the lengths;
// nothing is done above 250,000.
void attach_alternative(const Alternative& other, std::span<Word> words);

// In normal form, without marks, without doubles and without `heard`; best first.
std::vector<Alternative> tidy_alternatives(std::vector<Alternative> alternatives,
                                           const std::string& heard);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_NBEST_H_
