#include "publish/place.h"

#include <algorithm>
#include <cstddef>
#include <vector>

#include "board/notation.h"
#include "publish/text.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::Node;
using lesson::NodeId;

const Node& at(const Lesson& lesson, NodeId id) {
  return lesson.nodes[static_cast<std::size_t>(id)];
}

// From the first move below `from`, an ancestor, to the node.
std::vector<NodeId> path_to(const Lesson& lesson, NodeId id, NodeId from = 0) {
  std::vector<NodeId> path;
  for (; id != from; id = at(lesson, id).parent) path.push_back(id);
  std::reverse(path.begin(), path.end());
  return path;
}

void append_move(std::string& line, const board::Position& before, const std::string& san) {
  if (!line.empty()) line += ' ';
  if (line.empty() || before.side_to_move() == board::Color::kWhite) {
    line += move_number(before) + ' ';
  }
  line += san;
}

}  // namespace

std::string numbered_move(const Lesson& lesson, NodeId id) {
  if (id <= 0) return "the start";
  const Node& node = at(lesson, id);
  return move_number(at(lesson, node.parent).position) + ' ' + node.san;
}

std::string place(const Lesson& lesson, NodeId id) {
  return id <= 0 ? "at the start" : "after " + numbered_move(lesson, id);
}

std::string line_to(const Lesson& lesson, NodeId id) {
  std::string line;
  board::Position p = board::Position::initial();
  for (const board::Move m : lesson.start.moves) {
    append_move(line, p, board::to_san(p, m));
    p = p.after(m);
  }
  for (const NodeId step : path_to(lesson, id)) {
    const Node& node = at(lesson, step);
    append_move(line, at(lesson, node.parent).position, node.san);
  }
  return line;
}

std::string line_between(const Lesson& lesson, NodeId from, NodeId id) {
  std::string line;
  for (const NodeId step : path_to(lesson, id, from)) {
    const Node& node = at(lesson, step);
    append_move(line, at(lesson, node.parent).position, node.san);
  }
  return line;
}

NodeId meeting_point(const Lesson& lesson, NodeId a, NodeId b) {
  while (a != b) {  // a parent comes before its children
    NodeId& later = a > b ? a : b;
    later = at(lesson, later).parent;
  }
  return a;
}

std::string choices_to(const Lesson& lesson, NodeId id) {
  if (id <= 0) return numbered_move(lesson, id);
  std::vector<int> children(lesson.nodes.size(), 0);
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    ++children[static_cast<std::size_t>(lesson.nodes[i].parent)];
  }
  std::string line;
  for (const NodeId step : path_to(lesson, id)) {
    if (step != id && children[static_cast<std::size_t>(at(lesson, step).parent)] < 2) continue;
    if (!line.empty()) line += ", ";
    line += numbered_move(lesson, step);
  }
  return line;
}

}  // namespace plyscribe::publish
