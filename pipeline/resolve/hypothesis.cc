#include "resolve/hypothesis.h"

namespace plyscribe::resolve {

std::int32_t HypothesisTree::child(std::int32_t parent, board::Move m) const {
  for (std::int32_t c = nodes[static_cast<std::size_t>(parent)].first_child; c >= 0;
       c = nodes[static_cast<std::size_t>(c)].next_sibling) {
    if (nodes[static_cast<std::size_t>(c)].move == m) return c;
  }
  return -1;
}

std::int32_t HypothesisTree::add(std::int32_t parent, LineId id, const Line& line, std::uint32_t token,
                                 bool unsaid) {
  const auto index = static_cast<std::int32_t>(nodes.size());
  TreeNode node;
  node.line = id;
  node.move = line.move;
  node.parent = parent;
  node.first_token = node.last_token = token;
  node.unsaid = unsaid;
  TreeNode& above = nodes[static_cast<std::size_t>(parent)];
  node.next_sibling = above.first_child;
  node.depth = static_cast<std::uint16_t>(above.depth + 1);
  above.first_child = index;
  ++above.children;
  hash ^= line.hash;
  nodes.push_back(node);
  return index;
}

HypothesisTree HypothesisTree::with_room(std::size_t more) const {
  HypothesisTree out;
  out.nodes.reserve(nodes.size() + more);
  out.nodes.assign(nodes.begin(), nodes.end());
  out.hash = hash;
  return out;
}

}  // namespace plyscribe::resolve
