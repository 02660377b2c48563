#include "resolve/hypothesis.h"

namespace plyscribe::resolve {

std::int32_t HypothesisTree::child(std::int32_t parent, LineId line) const {
  for (std::int32_t c = nodes[static_cast<std::size_t>(parent)].first_child; c >= 0;
       c = nodes[static_cast<std::size_t>(c)].next_sibling) {
    if (nodes[static_cast<std::size_t>(c)].line == line) return c;
  }
  return -1;
}

std::int32_t HypothesisTree::add(std::int32_t parent, LineId line, std::uint64_t line_hash,
                                 std::uint32_t token, bool unsaid) {
  const auto index = static_cast<std::int32_t>(nodes.size());
  TreeNode node;
  node.line = line;
  node.parent = parent;
  node.first_token = node.last_token = token;
  node.unsaid = unsaid;
  TreeNode& above = nodes[static_cast<std::size_t>(parent)];
  node.next_sibling = above.first_child;
  node.depth = static_cast<std::uint16_t>(above.depth + 1);
  above.first_child = index;
  ++above.children;
  hash ^= line_hash;
  nodes.push_back(node);
  return index;
}

}  // namespace plyscribe::resolve
