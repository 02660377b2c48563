// Games and players that the lecturer names: who, against whom, where, when.
//
//   "That was Verrick against Haldersby, Brackwater Open, twenty eleven, I think."
//       player Verrick, opponent Haldersby, event Brackwater Open, year twenty eleven
//
// Names are told by their capitals, so words without capitals give none. Names and years are kept
// as they were heard; the speaker himself has no name. A sentence gives one credit, with all its
// words.
#ifndef PLYSCRIBE_LESSON_CREDITS_H_
#define PLYSCRIBE_LESSON_CREDITS_H_

#include <vector>

#include "lesson/lesson.h"
#include "transcript/transcript.h"

namespace plyscribe::lesson {

// In the order of time. Cost: linear in the words.
std::vector<Credit> credits(const transcript::Transcript& transcript, const Lesson& lesson);

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_CREDITS_H_
