// How likely a move is to be talked about: a softmax over the legal moves of a position.
//
// Features are cheap chess sense: captures by exchange value, recaptures, checks and mates, what the
// move leaves hanging, development, and the master book. Weights come from a data file that the
// trainer writes. Cost: about 30 microseconds a position.
#ifndef PLYSCRIBE_RESOLVE_POLICY_H_
#define PLYSCRIBE_RESOLVE_POLICY_H_

#include <string>
#include <utility>
#include <vector>

#include "board/position.h"

namespace plyscribe::resolve {

using SparseFeatures = std::vector<std::pair<std::uint32_t, float>>;

// Names of the policy's features; the index is the id.
const std::vector<std::string>& policy_feature_names();

struct PolicyInput {
  const board::Position* position = nullptr;
  board::Move last;           // the move that led here, kNoMove at a start
  bool last_captured = false;
};

// Features of each legal move, in the order of `moves`.
std::vector<SparseFeatures> policy_features(const PolicyInput& in, const board::MoveList& moves);

// Natural logarithms of probabilities, in the order of `moves`.
std::vector<float> policy_log_probs(const PolicyInput& in, const board::MoveList& moves,
                                    const std::vector<float>& weights);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_POLICY_H_
