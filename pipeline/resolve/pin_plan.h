// Pins laid over the tokens of a lesson, so that the search meets them in its own terms.
//
//   words 40..43 are the move Bd2   ->   tokens 47..51, reading 3120, which fits Bd2 alone
//
// A pinned move gets a reading of its own at the end of the lattice's readings, in no list of what
// begins where: it needs no reading that the words gave, and has the context of one that begins
// there. Readings of the lattice that share a token with a pin are not placed.
#ifndef PLYSCRIBE_RESOLVE_PIN_PLAN_H_
#define PLYSCRIBE_RESOLVE_PIN_PLAN_H_

#include <cstdint>
#include <vector>

#include "hearing/reading.h"
#include "resolve/pin.h"

namespace plyscribe::resolve {

struct PinnedTokens {
  std::uint32_t first = 0, last = 0;  // tokens [first, last)
  std::size_t index = 0;              // of the pin, in the order they were given
  Pin pin;
  std::uint32_t reading = 0;  // the pin's own; not of a pin that says no move
  bool operator==(const PinnedTokens&) const = default;
};

struct PinPlan {
  std::vector<PinnedTokens> pins;             // by token, not overlapping
  std::vector<std::uint32_t> ahead;           // by token: the first pin that ends behind it
  std::vector<UnheldPin> unheld;              // can't hold whatever the search does
  std::uint32_t first_reading = 0xffffffffU;  // the readings from here on belong to pins

  // The pin that shares a token with [first, last), or null; a pinned move before a pinned "no
  // move".
  const PinnedTokens* over(std::uint32_t first, std::uint32_t last) const;
  const PinnedTokens* of_reading(std::uint32_t reading) const;
};

struct Lesson;
// Puts the pins in place of those that the lesson had. The first token at which a search may
// notice, tokens.size() + 1 if none.
std::uint32_t set_pins(Lesson& lesson, const std::vector<Pin>& pins);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_PIN_PLAN_H_
