// Where the lesson's side has to choose, and what the lesson says to choose.
//
// A position is one decision, however many lines reach it; a move shown in two of them is one
// answer. What the lecturer leaves open stays open: no order of ours stands in for his advice.
//
//   kAdvised   a move is recommended
//   kShown     nothing is recommended, one move is shown, and the way to it follows the lesson's
//              own choices: what it shows there is what it plays
//   kAside     the same, but on a way that the lesson itself doesn't take
//   kOpen      several moves are shown and none is recommended
//   kConflict  a move is recommended here and advised against here, in another line or later on
#ifndef PLYSCRIBE_PUBLISH_DECISIONS_H_
#define PLYSCRIBE_PUBLISH_DECISIONS_H_

#include <cstdint>
#include <vector>

#include "lesson/lesson.h"

namespace plyscribe::publish {

enum class Verdict : std::uint8_t { kAdvised, kShown, kAside, kOpen, kConflict };

struct Answer {
  std::vector<lesson::NodeId> nodes;  // the same move in each line, in the order of time
  bool recommended = false, playable = false, avoided = false, for_completeness = false;
};

struct Decision {
  std::vector<lesson::NodeId> places;  // nodes with this position, in the order of the nodes
  std::vector<Answer> answers;         // recommended ones first, else in the order of the nodes
  Verdict verdict = Verdict::kOpen;
};

// In the order of their first places. Cost: linear in the nodes, but for sorting.
std::vector<Decision> decisions(const lesson::Lesson& lesson);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_DECISIONS_H_
