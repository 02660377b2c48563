// What the lecturer should mend before the lesson goes out, as plain text of at most 79 columns.
//
//   Moves that no reading makes legal      words that name a move which fits nowhere
//   Self-corrections                       "bishop c5, sorry, bishop d6": cut it, or caption it
//   A move called by two names             the same move was Nb7 once and Nd7 once
//   Advice that contradicts itself         a position in two lines; a blunder that is recommended
//   Heard otherwise                        what the captions say, and what the lesson says
//   Several moves and no choice            the lesson's side is left without advice
//   Lines that end without a verdict       nothing was said of how they stand
//   Not certain                            moves to look at: the words may mean another one
//   Squares named without a move           mostly talk of what stands where, in one paragraph
//
// Each entry has its time. A section without entries is left out; a lesson without any says so.
#ifndef PLYSCRIBE_PUBLISH_SLIPS_H_
#define PLYSCRIBE_PUBLISH_SLIPS_H_

#include <string>
#include <vector>

#include "lesson/lesson.h"
#include "publish/kind.h"

namespace plyscribe::publish {

struct Slip {
  double t = 0;
  std::string text;
};

// These six in the order of time.
std::vector<Slip> two_names(const lesson::Lesson& lesson);
std::vector<Slip> contradictions(const lesson::Lesson& lesson);
std::vector<Slip> heard_otherwise(const lesson::Lesson& lesson);
std::vector<Slip> not_certain(const lesson::Lesson& lesson);
std::vector<Slip> undecided(const lesson::Lesson& lesson);
std::vector<Slip> without_verdict(const lesson::Lesson& lesson);

std::string write_slips(const lesson::Lesson& lesson);

extern const Kind kSlipsKind;  // "slips": slips.txt

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_SLIPS_H_
