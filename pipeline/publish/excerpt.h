// A lesson that holds only some of the moves.
//
//   excerpt(lesson, {5, 6})      moves 5 and 6, and those that lead there from the start
//
// Moves that only lead there keep their times but none of what was said of them. Ideas stay with
// the moves that are listed. Words are those of the whole lesson.
#ifndef PLYSCRIBE_PUBLISH_EXCERPT_H_
#define PLYSCRIBE_PUBLISH_EXCERPT_H_

#include <vector>

#include "lesson/lesson.h"

namespace plyscribe::publish {

// Cost: linear in the lesson.
lesson::Lesson excerpt(const lesson::Lesson& lesson, const std::vector<lesson::NodeId>& moves);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_EXCERPT_H_
