// What the words around a reading say, as strings for the model: cue phrases and neighbours.
//
// Input: a lattice. Output: for each reading the strings of its context, independent of any
// hypothesis. The window to the left ends at the primary reading before it ("<m>").
#ifndef PLYSCRIBE_RESOLVE_CONTEXT_H_
#define PLYSCRIBE_RESOLVE_CONTEXT_H_

#include <string>
#include <vector>

#include "hearing/lattice.h"

namespace plyscribe::resolve {

// Who is said to move, in the words before a reading.
enum class SideNamed : std::uint8_t { kNobody, kWhite, kBlack, kWe, kThey };

// Moves that are seen on the board only, told in passing before a reading: men come off, both sides
// castle, "a few more moves".
enum class Gap : std::uint8_t { kNone, kOff, kCastle, kMoves };

struct Context {
  std::vector<std::string> strings;
  SideNamed side = SideNamed::kNobody;
  Gap gap = Gap::kNone;
};

std::vector<Context> contexts_of(const hearing::Lattice& lattice);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_CONTEXT_H_
