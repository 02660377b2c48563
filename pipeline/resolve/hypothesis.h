// What the search keeps of one way to understand a lesson so far.
//
// A Hypothesis is a tree of visited lines, a cursor in it, and a short memory of the talk. Trees are
// shared between hypotheses and copied when one adds to its own. Two hypotheses at the same token
// with the same merge_key have the same future and merge: the better one stays. The key holds the set of
// lines, the cursor and the last action. It leaves out when nodes were last visited: keeping that
// would keep apart hypotheses which differ only in how an aside long past was taken, and crowd the
// beam with them ("g4 and h5": idea and talk, or idea and idea).
#ifndef PLYSCRIBE_RESOLVE_HYPOTHESIS_H_
#define PLYSCRIBE_RESOLVE_HYPOTHESIS_H_

#include <array>
#include <cstdint>
#include <memory>
#include <vector>

#include "resolve/line_tree.h"
#include "resolve/model.h"
#include "resolve/policy.h"

namespace plyscribe::resolve {

struct TreeNode {
  LineId line = kNoLine;
  board::Move move;                // that leads to it
  std::int32_t parent = -1;        // index into HypothesisTree::nodes
  std::int32_t first_child = -1;   // children in reverse order of being told
  std::int32_t next_sibling = -1;
  std::uint32_t first_token = 0;   // where it was first and last named
  std::uint32_t last_token = 0;
  std::uint16_t children = 0;
  std::uint16_t depth = 0;         // plies from the start
  bool unsaid = false;
};

struct HypothesisTree {
  std::vector<TreeNode> nodes;  // 0 is the start position
  std::uint64_t hash = 0;       // of the set of lines

  std::int32_t child(std::int32_t parent, board::Move m) const;  // -1 if it is not in the tree
  std::int32_t add(std::int32_t parent, LineId id, const Line& line, std::uint32_t token, bool unsaid);
  HypothesisTree with_room(std::size_t more) const;  // a copy that so many can be added to
};

constexpr std::uint32_t kNoReading = 0xffffffffU;

struct Hypothesis {
  std::int32_t parent = -1;   // index of the hypothesis it grew from
  float score = 0;            // gain so far
  std::shared_ptr<const HypothesisTree> tree;  // null once nothing can grow from it any more
  std::int32_t cursor = 0;    // index into tree->nodes
  LineId line = kNoLine;      // the cursor's
  std::uint32_t token = 0;    // where it stands
  std::uint32_t last_end = 0; // token after the last mention that moved the cursor
  Action last_action = Action::kNone;
  std::uint32_t reading = kNoReading;  // what the last step read, if anything
  std::int32_t gold = -1;     // training: gold events it has got right, or -1 once wrong
  std::uint16_t unfit = 0;    // readings passed over lately that fitted nowhere
  std::array<std::uint32_t, 3> passed = {kNoReading, kNoReading, kNoReading};  // newest first
  SparseFeatures features;    // of the last step; kept only when training or explaining

};

// The merge key of a hypothesis with this set of lines, cursor line and last action.
inline std::uint64_t merge_key(std::uint64_t tree_hash, std::uint64_t cursor_hash, Action last) {
  return tree_hash ^ (cursor_hash * 0x9e3779b97f4a7c15ULL) ^ (static_cast<std::uint64_t>(last) << 56);
}

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_HYPOTHESIS_H_
