// Where the lecturer put himself right: "bishop c5, sorry, bishop d6".
//
// A correction stands between two namings of moves that are a few words apart. The first may have
// been let go by the search, so a word that ends in a square will do for it; the second is a
// mention, an idea or a loose one. The cue phrase "self-correction" of grammar/cues.tsv tells it
// from "sorry about the noise".
#ifndef PLYSCRIBE_LESSON_CORRECTIONS_H_
#define PLYSCRIBE_LESSON_CORRECTIONS_H_

#include <vector>

#include "lesson/lesson.h"
#include "transcript/transcript.h"

namespace plyscribe::lesson {

// From the first naming to the second, in the order of time. Cost: linear in the words.
std::vector<Span> corrections(const transcript::Transcript& transcript, const Lesson& lesson);

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_CORRECTIONS_H_
