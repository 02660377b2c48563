#include "publish/highlights.h"

#include <algorithm>
#include <cstddef>
#include <tuple>

#include "publish/line_order.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::NodeId;

constexpr int kApart = 3;               // plies between two highlights
constexpr std::size_t kMovesEach = 10;  // moves for each highlight
constexpr std::size_t kFewest = 2;      // allowed in a short lesson
constexpr double kFrom = 2;             // a score below shows a position that was passed by

std::size_t index(NodeId id) { return static_cast<std::size_t>(id); }

// Twenty seconds weigh as much as one move that branches off.
std::vector<double> scores(const Lesson& lesson) {
  const std::vector<double> dwell = dwell_seconds(lesson);
  std::vector<double> branches(lesson.nodes.size(), 0), told(lesson.nodes.size(), 0);
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    branches[index(lesson.nodes[i].parent)] += 1;
    told[i] += static_cast<double>(lesson.nodes[i].remarks.size());
  }
  for (const lesson::Idea& idea : lesson.ideas) told[index(idea.node)] += 1;

  std::vector<double> out(lesson.nodes.size(), 0);
  for (std::size_t i = 1; i < out.size(); ++i) {
    out[i] = std::min(3.0, dwell[i] / 20) + std::clamp(branches[i] - 1, 0.0, 3.0) +
             std::min(2.1, 0.7 * told[i]);
  }
  return out;
}

// Keeps highlights apart: along a line, and on either side of a branch.
class Spacing {
 public:
  explicit Spacing(const Lesson& lesson) : lesson_(lesson), near_(lesson.nodes.size(), false) {
    take(0);
  }

  bool is_free(NodeId id) const {
    for (int up = 0; up < kApart && id >= 0; ++up) {
      if (near_[index(id)]) return false;
      id = lesson_.nodes[index(id)].parent;
    }
    return true;
  }

  // Marks the node and those just above it, so that a look upward from a neighbour meets a mark.
  void take(NodeId id) {
    for (int up = 0; up < kApart && id >= 0; ++up) {
      near_[index(id)] = true;
      id = lesson_.nodes[index(id)].parent;
    }
  }

 private:
  const Lesson& lesson_;
  std::vector<bool> near_;
};

}  // namespace

std::vector<NodeId> highlights(const Lesson& lesson) {
  const std::vector<double> score = scores(lesson);
  std::vector<NodeId> candidates;
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    if (score[i] >= kFrom) candidates.push_back(static_cast<NodeId>(i));
  }
  std::sort(candidates.begin(), candidates.end(), [&](NodeId a, NodeId b) {
    return std::tuple(-score[index(a)], a) < std::tuple(-score[index(b)], b);
  });

  const std::size_t limit = std::max(kFewest, (lesson.nodes.size() - 1) / kMovesEach);
  std::vector<NodeId> chosen;
  Spacing spacing(lesson);
  for (const NodeId id : candidates) {
    if (chosen.size() == limit) break;
    if (!spacing.is_free(id)) continue;
    spacing.take(id);
    chosen.push_back(id);
  }
  std::sort(chosen.begin(), chosen.end());
  return chosen;
}

}  // namespace plyscribe::publish
