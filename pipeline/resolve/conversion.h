// From what the search holds to what the stage hands on.
//
// Input: a finished search. Output: the nodes of its best hypothesis, and one mention for every
// reading that was placed or passed over as a move. A share is that of the beam, some tokens on,
// that did the same with the words: by then what follows has spoken. Confidence: confidence.h.
#ifndef PLYSCRIBE_RESOLVE_CONVERSION_H_
#define PLYSCRIBE_RESOLVE_CONVERSION_H_

#include <map>

#include "resolve/decoding.h"
#include "resolve/search.h"

namespace plyscribe::resolve {

// Fills nodes and mentions. The search's last beam must not be empty.
void convert(const Lesson& lesson, const Search& search, const LineTree& lines, const Model& model,
             Decoding& out);

// The hypotheses that the best one at a token, the last by default, grew through, first to last.
std::vector<std::int32_t> best_chain(const Search& search, std::uint32_t token);
inline std::vector<std::int32_t> best_chain(const Search& search) {
  return best_chain(search, search.tokens());
}

// What the hypothesis and those it grew through placed on tokens [first, last); kNoLine: nothing.
LineId placed_on(const Lesson& lesson, const Search& search, std::int32_t hypothesis,
                 std::uint32_t first, std::uint32_t last);

// Share of the beam at token `when` (or the next that any hypothesis stands at) by what it placed
// on tokens [first, last).
std::map<LineId, double> beam_shares(const Lesson& lesson, const Search& search, std::uint32_t when,
                                     std::uint32_t first, std::uint32_t last);

// How long after a mention its share of the beam is read.
constexpr std::uint32_t kHindsight = 30;  // tokens

// For the words of a reading that are placed: the mends by which the move was heard otherwise.
constexpr std::uint16_t kHeardOtherwise = hearing::kMendFile | hearing::kMendRank |
                                          hearing::kMendPiece | hearing::kMendOrigin |
                                          hearing::kByEar;

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_CONVERSION_H_
