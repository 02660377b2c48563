// The weights by which hypotheses are ranked, and the names of what they weigh.
//
// Two kinds of features share one weight vector. Structural features have fixed ids: a Slot and a
// bucket. Context features are strings about the words around a reading ("lc=instead"), known from
// the data file, each with one weight for every Action.
//
//   weight id:  [0, kSlots' buckets) structural   then   kActions for each context string
//
// A model is data: pipeline/resolve/*.tsv, written by corpus/train. Weights are gains: the search
// maximises their sum (minus a cost in nats, up to scale).
#ifndef PLYSCRIBE_RESOLVE_MODEL_H_
#define PLYSCRIBE_RESOLVE_MODEL_H_

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "resolve/confidence.h"

namespace plyscribe::resolve {

// What the search may do with a reading.
enum class Action : std::uint8_t {
  kPlay,  // a new move at the cursor
  kWalk,  // a known move at the cursor: a path told again
  kSib,   // a new move beside the last one
  kUp,    // a new move beside an earlier one on the cursor's path
  kBack,  // a known move elsewhere in the tree: the cursor goes there
  kJump,  // a new move at a position off the cursor's path
  kNone,  // an idea, a description, talk: nothing is played
};
constexpr std::size_t kActions = 7;

// Structural feature templates. Buckets are explained where they are made (features.cc).
enum class Slot : std::uint8_t {
  kAction, kActionPair, kActionGap, kActionBreak, kChannel, kBackground, kMend, kByEar, kLogPolicy,
  kLogShare, kUnlikely, kBook, kBranch, kCrossed, kSiblings, kNearestBranch, kReferred,
  kAlternative, kBackKind, kBackDepth, kBackAge, kBackMatches, kJumpKind, kSideNamed, kLessonSide,
  kUnsaid, kUnsaidLog, kTwice, kPatternFit, kNoneFit, kUnfit, kRecap,
  kCount,
};

struct SlotShape {
  const char* name;
  std::uint16_t buckets;
};
constexpr std::size_t kSlots = static_cast<std::size_t>(Slot::kCount);
constexpr std::array<SlotShape, kSlots> kSlotShapes = {{
    {"action", 21},      {"action-pair", 49}, {"action-gap", 42},  {"action-break", 28},
    {"channel", 6},      {"background", 3},   {"mend", 36},        {"by-ear", 21},
    {"log-policy", 7},   {"log-share", 7},    {"unlikely", 21},    {"book", 21},
    {"branch", 20},      {"crossed", 8},      {"siblings", 10},    {"nearest-branch", 4},
    {"referred", 24},    {"alternative", 8},  {"back-kind", 24},   {"back-depth", 12},
    {"back-age", 12},    {"back-matches", 5}, {"jump-kind", 16},   {"side-named", 21},
    {"lesson-side", 14}, {"unsaid", 16},      {"unsaid-log", 4},   {"twice", 3},
    {"pattern-fit", 28}, {"none-fit", 12},   {"unfit", 24},
    {"recap", 2},
}};
constexpr std::array<std::uint32_t, kSlots + 1> kSlotOffsets = [] {
  std::array<std::uint32_t, kSlots + 1> out{};
  for (std::size_t i = 0; i < kSlots; ++i) out[i + 1] = out[i] + kSlotShapes[i].buckets;
  return out;
}();

// Where the weight of one bucket of a slot stands.
constexpr std::uint32_t slot_feature(Slot slot, std::size_t bucket) {
  return kSlotOffsets[static_cast<std::size_t>(slot)] + static_cast<std::uint32_t>(bucket);
}
constexpr std::size_t structural_features() { return kSlotOffsets.back(); }

class Model {
 public:
  Model();  // no context strings, all weights zero, policy zero

  // Text: lines "name<TAB>weight" (structural: slot:bucket), "string<TAB>w0 ... w6" (context),
  // "policy:name<TAB>weight", "confidence:sign:trust<TAB>weight". Asserts on what it cannot read: the shipped file is part of the build.
  static Model parse(std::string_view text);
  std::string serialise() const;

  std::uint32_t context_id(const std::string& s) const;  // kUnknown if not in the model
  std::uint32_t add_context(const std::string& s);
  std::uint32_t context_weight(std::uint32_t context, Action a) const {
    return static_cast<std::uint32_t>(structural_features() + context * kActions +
                                      static_cast<std::size_t>(a));
  }
  std::size_t contexts() const { return names_.size(); }
  const std::string& context_name(std::uint32_t id) const { return names_[id]; }

  static constexpr std::uint32_t kUnknown = 0xffffffffU;

  std::vector<float> weights;
  std::vector<float> policy;
  std::array<ConfidenceWeights, 3> confidence{};  // by Trust

 private:
  std::unordered_map<std::string, std::uint32_t> ids_;
  std::vector<std::string> names_;
};

const Model& shipped_model();

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_MODEL_H_
