// The lattice of readings: for every stretch of tokens, which moves they may name and at what cost.
//
// Input: a Transcript. Output: tokens; readings sorted by (first, last, pattern); and the primary
// readings, a non-overlapping choice of the strong ones in order, by which the rest of the program
// speaks of "the mention before this". Where the recogniser tells what else it thought of, that is
// read too, at the price of being less likely.
// Built once per lesson; independent of any position. Cost: linear in the words.
#ifndef PLYSCRIBE_HEARING_LATTICE_H_
#define PLYSCRIBE_HEARING_LATTICE_H_

#include <cstdint>
#include <vector>

#include "hearing/reading.h"
#include "hearing/tokens.h"
#include "transcript/transcript.h"

namespace plyscribe::hearing {

struct Lattice {
  Script script = Script::kWritten;
  std::vector<Token> tokens;
  std::vector<Reading> readings;  // by first token
  std::vector<std::uint32_t>
      first_at;  // readings that begin at token t: [first_at[t], first_at[t+1])
  std::vector<std::uint32_t> primary;  // indices of readings, in order, not overlapping
  std::vector<std::int32_t>
      primary_at;  // token -> index into primary of the one that covers it, or -1
};

Lattice build_lattice(const transcript::Transcript& t);

}  // namespace plyscribe::hearing

#endif  // PLYSCRIBE_HEARING_LATTICE_H_
