// Why a mention needs a look, in words for a person.
//
//   "no bishop can go to b3 here; the letter may be d or e"
//
// Hearing finds the readings of a lattice by their words; made once per lesson.
#ifndef PLYSCRIBE_REVIEW_REASON_H_
#define PLYSCRIBE_REVIEW_REASON_H_

#include <cstdint>
#include <string>
#include <vector>

#include "hearing/lattice.h"
#include "resolve/decoding.h"

namespace plyscribe::review {

class Hearing {
 public:
  // The lattice must outlive it.
  Hearing(const hearing::Lattice& lattice, std::size_t words);

  // Readings of exactly the words [first, last).
  std::vector<const hearing::Reading*> of(std::uint32_t first, std::uint32_t last) const;

 private:
  const hearing::Lattice& lattice_;
  std::vector<std::vector<std::uint32_t>> by_word_;  // readings that begin at a word
};

// Never empty. Says what does not fit as it was heard, what else it may be, and what the move rests
// on that nobody said.
std::string reason(const resolve::Mention& mention, const resolve::Decoding& decoding,
                   const Hearing& hearing);

}  // namespace plyscribe::review

#endif  // PLYSCRIBE_REVIEW_REASON_H_
