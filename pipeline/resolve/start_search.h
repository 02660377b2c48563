// Which of many starts are worth a full search, and whether the notation can be trusted: what a few
// narrow searches find.
//
// What sets starts apart is often said late, and most are given up early. So the first search looks
// at the beginning of the lesson with many starts and a few hypotheses for each, the next a little
// further with fewer starts and more hypotheses, the last as far as it takes. Each begins anew:
// what the one before had no room for may come out right. Pins play no part, so that a pin changes
// nothing before it.
#ifndef PLYSCRIBE_RESOLVE_START_SEARCH_H_
#define PLYSCRIBE_RESOLVE_START_SEARCH_H_

#include <functional>
#include <unordered_map>
#include <vector>

#include "resolve/search.h"
#include "resolve/start.h"

namespace plyscribe::resolve {

constexpr float kNearTie = 10;  // nats

struct NarrowedStarts {
  std::vector<StartOption> starts;  // the best first, and one within kNearTie of it if there is one
  double share = 1;                 // of certainty, the best one's
  bool clean = false;               // a lesson taken as dictated is written without mishearings
};

// `starts`: the likeliest first, not empty. `progress`: called with the share of the work done, may
// be empty.
NarrowedStarts narrow_starts(const Lesson& lesson, const Model& model, LineTree& lines,
                             std::vector<StartOption> starts,
                             const std::function<void(double)>& progress);

// A hypothesis for each start; to the line of each, its index.
std::unordered_map<LineId, std::size_t> seed_starts(const std::vector<StartOption>& starts,
                                                    LineTree& lines, Search& search);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_START_SEARCH_H_
