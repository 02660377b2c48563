// What the search's own files share: a step not yet taken, and a place to restart at.
#ifndef PLYSCRIBE_RESOLVE_SEARCH_CANDIDATE_H_
#define PLYSCRIBE_RESOLVE_SEARCH_CANDIDATE_H_

#include <utility>
#include <vector>

#include "resolve/search.h"

namespace plyscribe::resolve {

// A step not yet taken: what it would add to the hypothesis it grows from.
struct Search::Candidate {
  std::int32_t from = -1;
  float score = 0;
  std::uint32_t token = 0;  // where it leads
  Action action = Action::kNone;
  std::uint32_t reading = kNoReading;
  std::int32_t at = -1;    // parent node of a new move
  std::int32_t node = -1;  // known node
  LineId under = kNoLine;  // line from which `move` is played
  board::Move move;
  std::uint64_t line = 0;      // hash of the cursor's line afterwards
  std::vector<LineId> unsaid;  // lines between `at` and the move
  std::int32_t gold = -1;
  std::uint64_t key = 0;
  bool unfit = false;    // passes over what fits nowhere
  bool carried = false;  // no step at all: the hypothesis moves on
  SparseFeatures features;
};

// The search as it stood before step(token). Hypotheses made since are dropped by restoring it;
// those before are unchanged but for their token, which every step sets again.
struct Search::Snapshot {
  std::uint32_t token = 0;
  std::size_t hypotheses = 0, unheld = 0;
  std::vector<std::pair<std::uint32_t, std::vector<Candidate>>> pending;  // by token
  std::vector<float> floor_at;                                            // beside pending
};

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_SEARCH_CANDIDATE_H_
