// Zobrist numbers: one random word per (colour, piece, square), castling set, en-passant file, side.
//
// Made at compile time by SplitMix64 from a fixed seed, so keys are the same in every build and may
// be stored in files.
#ifndef PLYSCRIBE_BOARD_ZOBRIST_H_
#define PLYSCRIBE_BOARD_ZOBRIST_H_

#include <cstdint>

#include "board/types.h"

namespace plyscribe::board {

struct ZobristNumbers {
  std::uint64_t piece[2][7][64] = {};
  std::uint64_t castling[16] = {};
  std::uint64_t en_passant_file[8] = {};
  std::uint64_t black_to_move = 0;

  constexpr ZobristNumbers() {
    std::uint64_t state = 0x706c79736372696;
    auto next = [&state] {
      std::uint64_t z = (state += 0x9e3779b97f4a7c15);
      z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
      z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
      return z ^ (z >> 31);
    };
    for (auto& color : piece) {
      for (int type = 1; type < 7; ++type) {
        for (auto& number : color[type]) number = next();
      }
    }
    for (int rights = 1; rights < 16; ++rights) castling[rights] = next();
    for (auto& number : en_passant_file) number = next();
    black_to_move = next();
  }
};

inline constexpr ZobristNumbers kZobrist;

}  // namespace plyscribe::board

#endif  // PLYSCRIBE_BOARD_ZOBRIST_H_
