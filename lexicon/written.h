// The writing channel: how a dictation recogniser writes the parts of a move, given what was said.
//
//   written_costs().file[4][3]   // e written as d: 4.1 nats
//
// Hand-set beliefs in nats (en/written.tsv), a start for training. A part that is lost or
// invented, and other slips, have names of their own.
#ifndef PLYSCRIBE_LEXICON_WRITTEN_H_
#define PLYSCRIBE_LEXICON_WRITTEN_H_

#include <array>
#include <string_view>

namespace plyscribe::lexicon {

struct WrittenCosts {
  // [said][written]; files a..h and ranks 1..8 count from 0.
  std::array<std::array<float, 8>, 8> file{};
  std::array<std::array<float, 8>, 8> rank{};
  // [said][written] by the value of board::PieceType: 0 no letter (a pawn), 2 knight ... 6 king.
  // [n][0] is a lost letter, [0][n] an invented one. Index 1 is not used.
  std::array<std::array<float, 7>, 7> piece{};
  float capture_lost = 0, capture_invented = 0;
  float origin_lost = 0, origin_invented = 0;  // file or rank of disambiguation
};

const WrittenCosts& written_costs();

// Any row of en/written.tsv: ("file", "a", "8"), ("slip", "to", "2"). kNotWritten if there is none.
constexpr float kNotWritten = 12.0F;
float written_cost(std::string_view kind, std::string_view said, std::string_view written);

}  // namespace plyscribe::lexicon

#endif  // PLYSCRIBE_LEXICON_WRITTEN_H_
