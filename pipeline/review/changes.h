// What one correction did to the rest of the lesson: two decodings of the same words compared.
//
// Moves are compared as edges of the tree, by the whole line that leads to them; mentions by their
// words.
#ifndef PLYSCRIBE_REVIEW_CHANGES_H_
#define PLYSCRIBE_REVIEW_CHANGES_H_

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "resolve/decoding.h"

namespace plyscribe::review {

struct ChangedMention {
  std::uint32_t first_word = 0, last_word = 0;
  std::string was, now;  // "5.Nf3", "idea Nf3", "not placed", "talk"
};

struct Changes {
  std::vector<std::size_t> new_nodes;  // of `after`
  std::size_t gone = 0;                // moves of `before` that are no longer there
  std::vector<ChangedMention> mentions;
  bool start = false;  // another start position
};

Changes compare(const resolve::Decoding& before, const resolve::Decoding& after);

}  // namespace plyscribe::review

#endif  // PLYSCRIBE_REVIEW_CHANGES_H_
