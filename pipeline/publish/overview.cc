#include "publish/overview.h"

#include <algorithm>
#include <tuple>

#include "publish/line_order.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::NodeId;

std::size_t index(NodeId id) { return static_cast<std::size_t>(id); }

// First moves of branches, most talked about first. What follows a move is part of the talk about
// it, so a branch comes behind the one that it branches from.
std::vector<NodeId> branch_heads(const Lesson& lesson, const Children& children) {
  std::vector<NodeId> heads;
  for (std::size_t i = 0; i < children.size(); ++i) {
    if (i == 0 || children[i].size() > 1) {
      heads.insert(heads.end(), children[i].begin(), children[i].end());
    }
  }
  const std::vector<double> seconds = talk_seconds(lesson);
  std::sort(heads.begin(), heads.end(), [&](NodeId a, NodeId b) {
    return std::tuple(-seconds[index(a)], a) < std::tuple(-seconds[index(b)], b);
  });
  return heads;
}

}  // namespace

Overview overview(const Lesson& lesson, std::size_t most) {
  Children children = ordered_children(lesson);
  const std::vector<NodeId> heads = branch_heads(lesson, children);
  const std::size_t taken = std::min(most, heads.size());
  std::vector<bool> left_out(lesson.nodes.size(), false);
  for (std::size_t i = taken; i < heads.size(); ++i) left_out[index(heads[i])] = true;

  Overview out;
  out.left_out = heads.size() - taken;
  for (auto& siblings : children) {
    std::erase_if(siblings, [&](NodeId id) { return left_out[index(id)]; });
  }
  struct Task {
    NodeId head;
    std::size_t depth;
  };
  std::vector<Task> tasks;
  const auto branch_off = [&](NodeId from, std::size_t depth) {
    const auto& siblings = children[index(from)];
    for (std::size_t i = siblings.size(); i-- > 0;) tasks.push_back({siblings[i], depth});
  };
  branch_off(0, 0);
  while (!tasks.empty()) {
    const Task task = tasks.back();
    tasks.pop_back();
    Branch branch{task.depth, {task.head}};
    while (children[index(branch.moves.back())].size() == 1) {
      branch.moves.push_back(children[index(branch.moves.back())].front());
    }
    branch_off(branch.moves.back(), task.depth + 1);
    out.branches.push_back(std::move(branch));
  }
  return out;
}

}  // namespace plyscribe::publish
