// The order in which the lines of a lesson are written: which child goes on as the main line, and
// the walk of the whole tree with variations in brackets.
//
// The main line at a node is the child
//   1. that the speaker recommends; one that he shows for completeness comes late, one that he
//      advises against last;
//   2. then, the one whose whole subtree was talked about longest: each mention (of a move, said
//      or said again, or of an idea there) owns the time until the next mention begins;
//   3. then, the one named first.
// The other children follow by the time at which they were first named.
//
// The walk of   1 e4 -- 2 e5 -- 3 Nf3    is  move 1, move 2, open, move 4, close, move 3
//                    \- 4 c5
// as in PGN: a variation stands behind the move that it replaces.
#ifndef PLYSCRIBE_PUBLISH_LINE_ORDER_H_
#define PLYSCRIBE_PUBLISH_LINE_ORDER_H_

#include <vector>

#include "lesson/lesson.h"

namespace plyscribe::publish {

struct Step {
  enum class Kind : std::uint8_t { kMove, kOpen, kClose };
  Kind kind;
  lesson::NodeId node;  // kMove: the move; kOpen, kClose: first move of the variation
};

// Seconds talked while each node was the last that had been mentioned.
std::vector<double> dwell_seconds(const lesson::Lesson& lesson);

// Seconds talked about each node and all that follows it.
std::vector<double> talk_seconds(const lesson::Lesson& lesson);

// Children of each node, main line first.
using Children = std::vector<std::vector<lesson::NodeId>>;
Children ordered_children(const lesson::Lesson& lesson);

// Every node but the start, once. Keeps its own stack, so depth costs no C++ stack.
std::vector<Step> walk(const lesson::Lesson& lesson);

// The same below `from` in any part of the tree: `children` may leave nodes out.
std::vector<Step> walk(const Children& children, lesson::NodeId from);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_LINE_ORDER_H_
