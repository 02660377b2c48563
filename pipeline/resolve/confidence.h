// How likely a placed move is right, from what the search left behind.
//
// The share of the beam alone is too sure of itself: where the best hypotheses have gone wrong
// together, all of them agree. What betrays them is what stands around: moves heard otherwise,
// whole moves passed over, a parent that is doubtful itself. A logistic regression weighs these;
// corpus/train fits it on lessons that the search's weights were not trained on.
//
//   Evidence e = ...;                          // of one mention, made by conversion.cc
//   double p = confidence(weights, e);         // 0..1
#ifndef PLYSCRIBE_RESOLVE_CONFIDENCE_H_
#define PLYSCRIBE_RESOLVE_CONFIDENCE_H_

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace plyscribe::resolve {

enum class Sign : std::uint8_t {
  kAlways,      // 1
  kShare,       // log odds of the beam's share, at most 6 either way
  kParent,      // log odds of the parent's confidence, at most 4
  kCost,        // nats the words cost as this move
  kMended,      // heard otherwise
  kPolicy,      // log probability of the move in its position, at least -10
  kLogShare,    // of policy and words together, among what else the words may be
  kSibling, kHigher, kJumped, kRevisit, kBridged,  // how it was placed
  kPassedNear,  // share of the whole moves nearby that were passed over
  kMendedNear,  // share of the moves nearby that were heard otherwise
  kNextExact,   // share of the next three moves that are exactly as heard
  kWeak,        // the words are hardly a move
  kStart,       // log odds of the start position's share of the beam, at most 6
  kCount,
};
constexpr std::size_t kSigns = static_cast<std::size_t>(Sign::kCount);
std::string_view sign_name(Sign s);

// What speaks for a move, sign by sign.
struct Evidence {
  std::array<float, kSigns> signs{};
  float& operator[](Sign s) { return signs[static_cast<std::size_t>(s)]; }
  float operator[](Sign s) const { return signs[static_cast<std::size_t>(s)]; }
};

using ConfidenceWeights = std::array<float, kSigns>;
double confidence(const ConfidenceWeights& weights, const Evidence& e);

double log_odds(double p, double limit);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_CONFIDENCE_H_
