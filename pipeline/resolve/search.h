// The beam search over a lesson: tokens left to right, hypotheses side by side.
//
// Input: a lattice, its contexts, a model, start hypotheses. Output: the hypotheses at the last
// token, and through their parents how each came about.
// At a reading a hypothesis may play a new move at its cursor, walk on along a known one, branch
// beside the last move or an earlier one of its path, go back to a known move, jump to an
// unexplored leaf, or pass over the reading. A move that is missing on the board may be bridged.
// Words that a person pinned are no choice: every hypothesis does there what the pin says, at no
// cost of channel, and one that can't is dropped (search_pins.cc). A pin that none can hold is
// reported. Invariant: every line in every hypothesis is legal; moves come from legal move lists
// alone. The beam holds at most `beam` hypotheses a token and `per_cursor` of one cursor: diversity
// beats width. Deterministic: ties fall to the earlier hypothesis.
#ifndef PLYSCRIBE_RESOLVE_SEARCH_H_
#define PLYSCRIBE_RESOLVE_SEARCH_H_

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "hearing/lattice.h"
#include "resolve/context.h"
#include "resolve/fit_table.h"
#include "resolve/hypothesis.h"
#include "resolve/line_tree.h"
#include "resolve/model.h"
#include "resolve/prepared_lesson.h"

namespace plyscribe::resolve {

// While it is open where the lesson starts, each start has a share of the beam that no other can
// take: what shows that one is wrong is often said long after the first moves.
struct StartStage {
  std::size_t until = 0;   // so many likely mentions are heard
  std::size_t starts = 0;  // the best so many go on
  std::size_t share = 0;   // hypotheses with one start, at most
  float margin = 40;       // nats behind the best: dropped. One may be far behind and be right
};

struct SearchConfig {
  std::size_t beam = 80;       // wider: slower, more exact
  std::size_t per_cursor = 4;  // hypotheses with the same cursor line
  std::vector<StartStage> stages;  // one after another; none where the start is known
  std::size_t bridges = 4;         // unsaid moves tried at a cursor
  float margin = 16;          // nats behind the best at a token: dropped at once
  bool keep_features = false;
  std::uint32_t snapshots = 0;  // tokens between two places the search can restart at; 0: none
};

// Watches candidates while training: which of them are right.
class Guide {
 public:
  virtual ~Guide() = default;
  // Gold events done after the step, or -1. `line` is the line's hash, 0 where nothing is placed.
  virtual std::int32_t after(std::int32_t before, std::uint32_t first, std::uint32_t last,
                             std::uint64_t line) const = 0;
};

// A step that the search weighed, with what it was weighed by.
struct Weighed {
  Action action = Action::kNone;
  std::uint32_t reading = kNoReading;
  LineId under = kNoLine;  // from which the move is played; the cursor's where nothing is placed
  board::Move move;        // kNoMove: nothing is placed
  int unsaid = 0;          // moves bridged before it
  float gain = 0;
  SparseFeatures features;  // weight ids and values
};

struct Stance;
struct StepFacts;
struct Placement;

class Search {
 public:
  Search(const Lesson& lesson, const Model& model, LineTree& lines, const SearchConfig& config);

  ~Search();
  Search(const Search&) = delete;
  Search& operator=(const Search&) = delete;

  void set_guide(const Guide* guide) { guide_ = guide; }
  // At h.token. `way`: the moves from the initial position to the start, where known; the speaker
  // may tell them ("we've just played a6") without their being played again. `stays`: no stage cuts
  // it off for being one too many.
  void seed(Hypothesis h, const std::vector<board::Move>& way = {}, bool stays = false);
  const std::vector<std::int32_t>& step(std::uint32_t token);  // prune there, expand; the beam
  void run(std::uint32_t from = 0);                            // all steps
  void forget();                                               // drops all hypotheses
  // Goes back to the last snapshot at or before `token`, after a change of the lesson's pins that
  // is felt nowhere before it. The step to go on from.
  std::uint32_t rewind(std::uint32_t token);

  const Hypothesis& at(std::int32_t i) const { return hypotheses_[static_cast<std::size_t>(i)]; }
  const std::vector<std::int32_t>& beam(std::uint32_t token) const { return beams_[token]; }
  // Gold candidates that fell out of the beam at the last step (training only).
  bool lost_gold() const { return lost_gold_; }
  bool gold_pending(std::uint32_t after_token) const;
  // What it returns stays where it is as long as the search is not far past the reading.
  Fits fits(LineId line, std::uint32_t reading) { return fits(line, reading, fit_table(reading)); }
  // All that the hypothesis may do at a token, as the search weighed it; changes no beam.
  std::vector<Weighed> weigh(std::int32_t hypothesis, std::uint32_t token);
  std::vector<UnheldPin> unheld() const;  // pins that no hypothesis could hold, by time
  std::uint32_t tokens() const { return static_cast<std::uint32_t>(lesson_.lattice.tokens.size()); }

 private:
  struct Candidate;
  void expand(std::int32_t index);
  void read(std::int32_t index, std::uint32_t reading, const Stance& stance,
            const std::vector<std::uint8_t>& referred);
  void bridge(std::int32_t index, std::uint32_t reading, const Stance& stance);
  void bridge_told(std::int32_t index, std::uint32_t reading, const Stance& stance);
  void twice(std::int32_t index, std::uint32_t reading, const Stance& stance);
  void offer_over(std::int32_t index, std::uint32_t reading, const Stance& stance,
                  const std::vector<LineId>& unsaid, float unsaid_log, const Fit& fit, bool said);
  void pass(std::int32_t index, const Stance* stance);
  bool weigh_in(const Stance& stance, const StepFacts& facts, const Placement& placement,
                Candidate& candidate);
  void offer(const Stance& stance, const StepFacts& facts, const Placement& placement,
             Candidate&& candidate);
  void keep(std::uint32_t token, Candidate&& candidate);
  const StartStage* stage(std::uint32_t token) const;  // null where the start is not open any more
  std::size_t room(std::uint32_t token) const;         // hypotheses that go on from a token
  float margin(std::uint32_t token) const;             // nats behind the best of them
  bool only_carried(std::uint32_t token) const;
  std::vector<Candidate*> choose(std::uint32_t token);
  void thin(std::uint32_t token);
  Hypothesis grown(const Candidate& c);
  std::uint32_t table_of(std::uint32_t reading) const;
  FitTable& fit_table(std::uint32_t reading);
  Fits fits(LineId line, std::uint32_t reading, FitTable& table);  // the reading's
  std::vector<std::uint8_t> referred_nodes(const Stance& stance);
  void weigh_contexts(std::size_t from_reading);

  // Pinned words (search_pins.cc).
  struct Bridge;  // unsaid moves after which a pinned move is legal
  struct Route;   // the lines along a pinned line
  struct Snapshot;
  void hold(std::uint32_t token, const PinnedTokens& pin);
  void hold_line(std::int32_t index, const PinnedTokens& pin, Route& route);
  void hold_across(std::int32_t index, const PinnedTokens& pin, std::int32_t at,
                   const std::vector<Bridge>& gaps);
  std::vector<Bridge> gaps_from(LineId line, const PinnedTokens& pin, bool two);
  Action action_at(const Stance& stance, std::int32_t at) const;
  std::optional<Fit> pinned_fit(const Line& line, const PinnedTokens& pin) const;
  void take_snapshot(std::uint32_t token);

  const Lesson& lesson_;
  const Model& model_;
  LineTree& lines_;
  SearchConfig config_;
  const Guide* guide_ = nullptr;
  std::vector<Weighed>* watch_ = nullptr;  // takes what would be kept
  std::vector<Hypothesis> hypotheses_;
  std::vector<std::vector<Candidate>> pending_;
  std::vector<std::vector<std::int32_t>> beams_;
  std::unordered_map<LineId, std::vector<std::uint32_t>>
      recaps_;                       // by root: readings of the way to it
  std::vector<float> context_gain_;  // [reading * kActions + action]
  std::vector<std::size_t> heard_;   // by token: likely mentions before it
  std::size_t heard_first_ = SIZE_MAX;  // of them, those before the first hypothesis
  LineId staying_ = kNoLine;            // root of the start that stays
  bool lost_gold_ = false;

  // Made on first need, dropped once the search is far past the last reading that uses it, unless
  // snapshots let it come back and there is room.
  void drop_fits(std::uint32_t token);
  void drop_trees(const std::vector<std::int32_t>& beam);
  std::vector<std::unique_ptr<FitTable>> fit_tables_;  // by the first of like readings
  std::vector<float> floor_at_;                        // by token: what scores less is not kept
  std::vector<std::pair<std::uint32_t, std::string>> unheld_;  // first token of the pin, why
  std::vector<Snapshot> snapshots_;
};

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_SEARCH_H_
