// The positions of a lesson that deserve a picture: those that the lecturer dwelt on.
//
// What counts, each capped so that no one thing decides alone: seconds talked while the position
// stood on the board, moves that branch off there, ideas and remarks told there. No two highlights
// are less than three plies apart in the tree, and there is at most one for each ten moves.
#ifndef PLYSCRIBE_PUBLISH_HIGHLIGHTS_H_
#define PLYSCRIBE_PUBLISH_HIGHLIGHTS_H_

#include <vector>

#include "lesson/lesson.h"

namespace plyscribe::publish {

// Nodes, in their order. The start is not among them, as a lesson always shows it.
std::vector<lesson::NodeId> highlights(const lesson::Lesson& lesson);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_HIGHLIGHTS_H_
