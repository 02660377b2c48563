// Where a lesson may begin: the initial position, named openings, a position told in words.
//
// Input: the lattice's first minutes. Output: start options with gains, best first; the search seeds
// one hypothesis for each and what is said afterwards decides among them.
#ifndef PLYSCRIBE_RESOLVE_START_H_
#define PLYSCRIBE_RESOLVE_START_H_

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "hearing/lattice.h"
#include "resolve/decoding.h"
#include "support/result.h"

namespace plyscribe::resolve {

struct StartOption {
  Start start;
  float gain = 0;            // nats, relative to the initial position
  std::uint32_t token = 0;   // where the told lesson begins (after a position told in words)
};

// At most `limit` options. Never empty: the initial position is always one of them.
std::vector<StartOption> infer_starts(const hearing::Lattice& lattice, std::string_view title,
                                      std::size_t limit = 30);

// A start given by the user: FEN, moves from the initial position, or an opening's name.
Result<StartOption> given_start(std::string_view text);

// A set-up told in words ("White has the king on g1, rooks on d1 and e1 ..."): the placement as
// heard and its near misses. Empty if no position is told.
std::vector<StartOption> told_positions(const hearing::Lattice& lattice);

// Whom the lesson is for, where the first minutes or the title say it.
std::optional<board::Color> lesson_side(const hearing::Lattice& lattice, std::string_view title);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_START_H_
