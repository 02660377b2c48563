// How a place in the tree is named in words.
#ifndef PLYSCRIBE_PUBLISH_PLACE_H_
#define PLYSCRIBE_PUBLISH_PLACE_H_

#include <string>

#include "lesson/lesson.h"

namespace plyscribe::publish {

// "5... Na5"; of the start position "the start".
std::string numbered_move(const lesson::Lesson& lesson, lesson::NodeId id);

// "after 5... Na5"; "at the start".
std::string place(const lesson::Lesson& lesson, lesson::NodeId id);

// All moves up to and with the node's: "1. e4 e5 2. Nf3 Nc6". From the initial position where the
// moves before the lesson are known, else from the lesson's start, which may be empty.
std::string line_to(const lesson::Lesson& lesson, lesson::NodeId id);

// The moves behind `from`, an ancestor of the node, up to and with the node's.
std::string line_between(const lesson::Lesson& lesson, lesson::NodeId from, lesson::NodeId id);

// The last node that both are or come from.
lesson::NodeId meeting_point(const lesson::Lesson& lesson, lesson::NodeId a, lesson::NodeId b);

// The node's place by what was chosen on the way: the moves that have a sibling, and the node's
// own. "4. Ng5, 5... Na5, 6. Bb5+".
std::string choices_to(const lesson::Lesson& lesson, lesson::NodeId id);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_PLACE_H_
