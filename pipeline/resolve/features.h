// The structural features of one step of the search: where a move is placed, and how well it fits.
//
// Everything here reads the hypothesis before the step; nothing changes it. Context features are not
// here: they depend on the reading alone and are added by the search.
#ifndef PLYSCRIBE_RESOLVE_FEATURES_H_
#define PLYSCRIBE_RESOLVE_FEATURES_H_

#include "resolve/search.h"

namespace plyscribe::resolve {

// Facts about a hypothesis that all its steps at one token share.
struct Stance {
  const Hypothesis& h;
  const HypothesisTree& tree;
  std::vector<std::int32_t> path;      // cursor first, start last
  std::vector<std::int16_t> path_up;   // by node: plies above the cursor if on the path, else -1
  std::vector<std::int16_t> meets_up;  // by node: plies from the cursor up to the nearest common node
  std::vector<board::Bitboard> child_targets;  // by node: where the moves of its children go
  std::size_t broken = 0;  // strongest break since the last mention: none, comma, sentence, paragraph

  std::int32_t child(std::size_t node, board::Move m) const {  // -1 if it is not in the tree
    if ((child_targets[node] & board::bit(m.to())) == 0) return -1;
    return tree.child(static_cast<std::int32_t>(node), m);
  }
};
Stance stance_of(const Hypothesis& h, const Lesson& lesson);

// One way to place a reading.
struct Placement {
  Action action = Action::kNone;
  std::int32_t at = -1;        // node under which the move is (parent)
  std::int32_t node = -1;      // the known node, for kWalk and kBack
  const Fit* fit = nullptr;    // null for kNone
  int unsaid = 0;              // moves bridged before it
  float unsaid_log = 0;        // their log probability
  Gap gap = Gap::kNone;        // what the talk said of them
  bool twice = false;          // they were named in the same breath
};

class FeatureSink {
 public:
  FeatureSink(const std::vector<float>& weights, SparseFeatures* keep)
      : weights_(weights.data()), keep_(keep) {}
  void add(Slot slot, std::size_t bucket, float value = 1.0F) {
    const std::uint32_t id = slot_feature(slot, bucket);
    gain_ += weights_[id] * value;
    if (keep_ != nullptr) [[unlikely]] keep(id, value);
  }
  float gain() const { return gain_; }

 private:
  void keep(std::uint32_t id, float value);  // apart, so that add() stays small

  const float* weights_;
  SparseFeatures* keep_;
  float gain_ = 0;
};

struct StepFacts {
  const Lesson& lesson;
  const LineTree& lines;
  std::uint32_t reading = 0;
  // For each node of the tree: is it named by one of the readings passed over since the cursor last
  // moved? 0 no, 1 by an older one, 2 by the newest.
  const std::vector<std::uint8_t>* referred = nullptr;
  int known_matches = 0;       // nodes of the tree that the reading names exactly
  float best_here = -99;       // best log share-free probability of an exact fit at the cursor
  bool fits_nowhere = false;   // neither a move at the cursor nor one told before
  bool recap = false;          // the reading names a move of the way to the start
};

void placement_features(const Stance& s, const StepFacts& f, const Placement& p, FeatureSink& sink);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_FEATURES_H_
