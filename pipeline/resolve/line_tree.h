// All lines of moves that any hypothesis has looked at, each stored once.
//
// A LineId is a position reached by one line of moves from one start: a trie. Hypotheses share it,
// so a hypothesis's tree is a set of LineIds, and a legal move list or a policy is made once.
// Grows only; ids stay valid; references do not survive child(). Not thread-safe.
#ifndef PLYSCRIBE_RESOLVE_LINE_TREE_H_
#define PLYSCRIBE_RESOLVE_LINE_TREE_H_

#include <cstdint>
#include <deque>
#include <unordered_map>
#include <vector>

#include "board/position.h"

namespace plyscribe::resolve {

using LineId = std::uint32_t;
constexpr LineId kNoLine = 0xffffffffU;

struct Line {
  LineId parent = kNoLine;
  board::Move move;
  bool captured = false;  // the move was a capture
  board::Position position;
  std::uint64_t hash = 0;  // of this line, for hashing sets of lines
  // Filled on first need:
  bool expanded = false;
  std::vector<board::Move> moves;
  std::vector<bool> checks;
  std::vector<float> log_probs;  // policy, nats
  bool in_book = false;
};

// The hash of the line that a move leads to, known before the line is made.
std::uint64_t line_hash(std::uint64_t parent_hash, board::Move m);

class LineTree {
 public:
  explicit LineTree(const std::vector<float>& policy_weights) : weights_(policy_weights) {}

  LineId root(const board::Position& p);  // a start position; the same position gives the same id
  LineId child(LineId parent, board::Move m);
  const Line& at(LineId id) const { return lines_[id]; }
  const Line& expand(LineId id);  // with moves, checks and policy
  std::size_t size() const { return lines_.size(); }

 private:
  const std::vector<float>& weights_;
  std::deque<Line> lines_;
  std::unordered_map<std::uint64_t, LineId> roots_;
  std::unordered_map<std::uint64_t, LineId> children_;
};

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_LINE_TREE_H_
