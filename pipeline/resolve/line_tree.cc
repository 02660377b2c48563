#include "resolve/line_tree.h"

#include "lexicon/book.h"
#include "resolve/policy.h"

namespace plyscribe::resolve {
namespace {

std::uint64_t mix(std::uint64_t x) {  // splitmix64's finaliser
  x += 0x9e3779b97f4a7c15ULL;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
  return x ^ (x >> 31);
}

}  // namespace

std::uint64_t line_hash(std::uint64_t parent_hash, board::Move m) {
  return mix(parent_hash ^ m.bits());
}

LineId LineTree::root(const board::Position& p) {
  const auto known = roots_.find(p.key());
  if (known != roots_.end()) return known->second;
  const auto id = static_cast<LineId>(lines_.size());
  Line line;
  line.position = p;
  line.hash = mix(p.key());
  lines_.push_back(std::move(line));
  roots_.emplace(p.key(), id);
  return id;
}

LineId LineTree::child(LineId parent, board::Move m) {
  const std::uint64_t key = (static_cast<std::uint64_t>(parent) << 16) | m.bits();
  const auto known = children_.find(key);
  if (known != children_.end()) return known->second;
  const auto id = static_cast<LineId>(lines_.size());
  Line line;
  line.parent = parent;
  line.move = m;
  line.captured = lines_[parent].position.is_capture(m);
  line.position = lines_[parent].position.after(m);
  line.hash = line_hash(lines_[parent].hash, m);
  lines_.push_back(std::move(line));
  children_.emplace(key, id);
  return id;
}

const Line& LineTree::expand(LineId id) {
  Line& line = lines_[id];
  if (line.expanded) return line;
  board::MoveList moves;
  line.position.legal_moves(moves);
  line.moves.assign(moves.begin(), moves.end());
  line.checks.resize(moves.size());
  for (std::size_t i = 0; i < moves.size(); ++i) line.checks[i] = line.position.gives_check(moves[i]);
  const PolicyInput in{&line.position, line.move, line.captured};
  line.log_probs = policy_log_probs(in, moves, weights_);
  line.in_book = !lexicon::book_moves(line.position).empty();
  line.expanded = true;
  return line;
}

}  // namespace plyscribe::resolve
