// Where each piece attacks, as bitboards.
//
//   knight_attacks(kD4)                   eight squares
//   rook_attacks(kA1, occupied)           up to and including the first man on each ray
//   between(a, b)                         squares strictly between; empty if a, b share no line
//   line(a, b)                            the whole line through both, edge to edge, or empty
//
// Cost: one table read each; a slider adds one multiplication (magic) or one PEXT.
//
// Mechanism of the sliders: of the occupied squares only those on the piece's rays, without the
// edges, matter (mask). They are packed into an index, and the attack set is read from a table that
// is filled before main: init_priority puts it before every ordinary static object.
#ifndef PLYSCRIBE_BOARD_ATTACKS_H_
#define PLYSCRIBE_BOARD_ATTACKS_H_

#include <bit>

#include "board/types.h"

#ifdef __BMI2__
#include <immintrin.h>
#endif

namespace plyscribe::board {

struct SliderEntry {
  Bitboard mask = 0;
#ifndef __BMI2__
  Bitboard magic = 0;
  unsigned shift = 0;
#endif
  const Bitboard* attacks = nullptr;

  std::uint64_t index(Bitboard occupied) const {
#ifdef __BMI2__
    return _pext_u64(occupied, mask);
#else
    return ((occupied & mask) * magic) >> shift;
#endif
  }
};

// All tables are private to the functions below.
struct FixedTables {
  Bitboard knight[64] = {};
  Bitboard king[64] = {};
  Bitboard pawn[2][64] = {};
  Bitboard bishop_rays[64] = {};  // on an empty board
  Bitboard rook_rays[64] = {};
  Bitboard rising[64] = {};   // the a1-h8 direction, the square itself included
  Bitboard falling[64] = {};  // the a8-h1 direction
  Bitboard between[64][64] = {};
  Bitboard line[64][64] = {};
};
extern const FixedTables kFixed;

struct SliderTables {
  SliderEntry bishop[64];
  SliderEntry rook[64];
  SliderTables();
};
extern const SliderTables kSliders;

inline Bitboard knight_attacks(Square s) { return kFixed.knight[s]; }
inline Bitboard king_attacks(Square s) { return kFixed.king[s]; }
inline Bitboard pawn_attacks(Color c, Square s) { return kFixed.pawn[static_cast<int>(c)][s]; }
inline Bitboard bishop_rays(Square s) { return kFixed.bishop_rays[s]; }
inline Bitboard rook_rays(Square s) { return kFixed.rook_rays[s]; }
inline Bitboard between(Square a, Square b) { return kFixed.between[a][b]; }
inline Bitboard line(Square a, Square b) { return kFixed.line[a][b]; }
inline Bitboard rising_diagonal(Square s) { return kFixed.rising[s]; }
inline Bitboard falling_diagonal(Square s) { return kFixed.falling[s]; }

inline Bitboard bishop_attacks(Square s, Bitboard occupied) {
  const SliderEntry& e = kSliders.bishop[s];
  return e.attacks[e.index(occupied)];
}
inline Bitboard rook_attacks(Square s, Bitboard occupied) {
  const SliderEntry& e = kSliders.rook[s];
  return e.attacks[e.index(occupied)];
}

// Files, ranks, and bit handling.
constexpr Bitboard kFileA = 0x0101010101010101, kFileH = kFileA << 7;
constexpr Bitboard kRank1 = 0xff;
constexpr Bitboard file_mask(int file) { return kFileA << file; }
constexpr Bitboard rank_mask(int rank) { return kRank1 << (8 * rank); }

constexpr Square first_square(Bitboard b) { return static_cast<Square>(std::countr_zero(b)); }
constexpr Square pop_square(Bitboard& b) {
  const Square s = first_square(b);
  b &= b - 1;
  return s;
}
constexpr bool more_than_one(Bitboard b) { return (b & (b - 1)) != 0; }

// Step: 8 up, -8 down, 7 up-left, 9 up-right, and so on; nothing wraps around the edge.
template <int Step>
constexpr Bitboard shift(Bitboard b) {
  constexpr int kFileStep = ((Step % 8) + 8) % 8;  // 1: towards h, 7: towards a
  if constexpr (kFileStep == 1) b &= ~kFileH;
  if constexpr (kFileStep == 7) b &= ~kFileA;
  if constexpr (Step > 0) {
    return b << Step;
  } else {
    return b >> -Step;
  }
}

}  // namespace plyscribe::board

#endif  // PLYSCRIBE_BOARD_ATTACKS_H_
