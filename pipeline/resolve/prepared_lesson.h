// A lesson made ready for searching, once, however often it is searched.
//
//   Lesson lesson = prepare(hearing::build_lattice(transcript), model);
//
// Holds what the search asks of the words at every step: the readings, the context strings around
// each that the model knows, the breaks in the talk. Independent of any position.
#ifndef PLYSCRIBE_RESOLVE_PREPARED_LESSON_H_
#define PLYSCRIBE_RESOLVE_PREPARED_LESSON_H_

#include <cstdint>
#include <optional>
#include <vector>

#include "hearing/lattice.h"
#include "resolve/context.h"
#include "resolve/model.h"
#include "resolve/pin_plan.h"

namespace plyscribe::resolve {

// How much a transcript can be believed; weights of the channel differ. Whether written notation is
// clean is found by a first, narrow search: how often it had to mend what it read.
enum class Trust : std::uint8_t { kClean, kDictated, kSpokenWords };

// What stands around a reading.
struct Surroundings {
  std::vector<std::uint32_t> contexts;  // ids of the model's context strings
  SideNamed side = SideNamed::kNobody;
  Gap gap = Gap::kNone;  // moves told of before it, but not named
};

struct Lesson {
  hearing::Lattice lattice;
  std::vector<Surroundings> around;        // by reading
  std::vector<std::uint32_t> same_as;      // by reading: the first that names the same moves
  std::vector<std::uint8_t> break_before;  // by token: 0 none, 1 comma, 2 sentence, 3 paragraph
  Trust trust = Trust::kDictated;
  std::optional<board::Color> side;  // whom the lesson is for, where it is known
  PinPlan pins;
};
Lesson prepare(const hearing::Lattice& lattice, const Model& model);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_PREPARED_LESSON_H_
