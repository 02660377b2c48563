// Written notation as a dictation recogniser types it: "Bxc6", "fg4", "Nbbd2", "B7", "86".
//
// Output: the shapes one token may have, each with what it fixes and a cost. Confusions of letters
// and digits are vectors over all files, ranks and pieces (lexicon/en/written.tsv).
#ifndef PLYSCRIBE_HEARING_WRITTEN_H_
#define PLYSCRIBE_HEARING_WRITTEN_H_

#include <array>
#include <string_view>
#include <vector>

#include "hearing/reading.h"

namespace plyscribe::hearing {

struct WrittenShape {
  char piece = 0;        // N B R Q K, or 0: no piece letter
  int from_file = -1, from_rank = -1;
  bool takes = false;
  int to_file = -1, to_rank = -1;
  char promotion = 0;
  int castle = 0;        // as Reading::castle
  bool check = false, mate = false;
  float cost = 0;        // nats, for what was lost or doubled
};

std::vector<WrittenShape> written_shapes(std::string_view token);

// Costs in nats of each value having been meant where one was written.
class WrittenChannel {
 public:
  WrittenChannel();
  const std::array<float, 8>& file(int heard) const { return file_[static_cast<std::size_t>(heard)]; }
  const std::array<float, 8>& rank(int heard) const { return rank_[static_cast<std::size_t>(heard)]; }
  const std::array<float, 7>& piece(board::PieceType heard) const {
    return piece_[static_cast<std::size_t>(heard)];
  }
  // Both parts of a square; changing both at once costs extra.
  std::array<float, 64> square(int file, int rank) const;

 private:
  std::array<std::array<float, 8>, 8> file_;
  std::array<std::array<float, 8>, 8> rank_;
  std::array<std::array<float, 7>, 7> piece_;
};

const WrittenChannel& written_channel();

// The piece of a letter (N B R Q K); any other is a pawn.
board::PieceType piece_of(char letter);

}  // namespace plyscribe::hearing

#endif  // PLYSCRIBE_HEARING_WRITTEN_H_
