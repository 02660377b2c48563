// What to remember of a lesson, in short: facts of its tree, nothing made up.
//
//   after 5. exd5   5... Na5, 3:40 "this is what I recommend"; not 5... Nxd5
//   5... b5 6. Bf1 Nd4 7. c3 and 5... Nd4 6. c3 b5 7. Bf1 lead to the same position
#ifndef PLYSCRIBE_PUBLISH_MEMO_H_
#define PLYSCRIBE_PUBLISH_MEMO_H_

#include <string>
#include <vector>

#include "lesson/lesson.h"

namespace plyscribe::publish {

struct Rule {
  lesson::NodeId at = 0;                    // the position to choose in
  std::vector<lesson::NodeId> play, avoid;  // advised and advised against; not both empty
  std::string words;                        // that advise the first of play, or else of avoid
  double t = 0;                             // when
};

// Where the lesson's side was given advice, or has one move that does.
std::vector<Rule> rules(const lesson::Lesson& lesson);

struct Meeting {
  lesson::NodeId first = 0, second = 0;  // two ways to one position, by the time of their telling
};

// Only where the lines meet: what follows a meeting meets too and is not listed.
std::vector<Meeting> meetings(const lesson::Lesson& lesson);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_MEMO_H_
