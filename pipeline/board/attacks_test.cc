#include "board/attacks.h"

#include <gtest/gtest.h>

#include <random>

namespace plyscribe::board {
namespace {

// Walks the board square by square; shares nothing with the tables.
Bitboard walk(Square s, Bitboard occupied, bool diagonal) {
  Bitboard reached = 0;
  for (int df = -1; df <= 1; ++df) {
    for (int dr = -1; dr <= 1; ++dr) {
      if ((df != 0 && dr != 0) != diagonal || (df == 0 && dr == 0)) continue;
      for (int f = file_of(s) + df, r = rank_of(s) + dr; f >= 0 && f < 8 && r >= 0 && r < 8;
           f += df, r += dr) {
        reached |= bit(make_square(f, r));
        if (occupied & bit(make_square(f, r))) break;
      }
    }
  }
  return reached;
}

TEST(Attacks, SlidersAgreeWithAWalkOnRandomOccupancies) {
  std::mt19937_64 random(20240101);
  for (int round = 0; round < 3000; ++round) {
    Bitboard occupied = random();
    for (int thinning = round % 4; thinning > 0; --thinning) occupied &= random();
    for (Square s = 0; s < 64; ++s) {
      ASSERT_EQ(bishop_attacks(s, occupied), walk(s, occupied, true)) << int{s} << ' ' << occupied;
      ASSERT_EQ(rook_attacks(s, occupied), walk(s, occupied, false)) << int{s} << ' ' << occupied;
    }
  }
}

TEST(Attacks, KnightKingAndPawnKeepTheirDistance) {
  for (Square a = 0; a < 64; ++a) {
    for (Square b = 0; b < 64; ++b) {
      const int df = file_of(b) - file_of(a), dr = rank_of(b) - rank_of(a);
      const bool knight = df * df + dr * dr == 5;
      const bool king = df * df <= 1 && dr * dr <= 1 && a != b;
      EXPECT_EQ((knight_attacks(a) & bit(b)) != 0, knight) << int{a} << ' ' << int{b};
      EXPECT_EQ((king_attacks(a) & bit(b)) != 0, king) << int{a} << ' ' << int{b};
      EXPECT_EQ((pawn_attacks(Color::kWhite, a) & bit(b)) != 0, df * df == 1 && dr == 1);
      EXPECT_EQ((pawn_attacks(Color::kBlack, a) & bit(b)) != 0, df * df == 1 && dr == -1);
    }
  }
}

TEST(Attacks, BetweenAndLineFollowFromTheRays) {
  for (Square a = 0; a < 64; ++a) {
    for (Square b = 0; b < 64; ++b) {
      Bitboard inside = 0, whole = 0;
      for (bool diagonal : {false, true}) {
        if (walk(a, 0, diagonal) & bit(b)) {
          inside = walk(a, bit(b), diagonal) & walk(b, bit(a), diagonal);
          whole = (walk(a, 0, diagonal) & walk(b, 0, diagonal)) | bit(a) | bit(b);
          // Of two crossing rays only the squares in line with both count.
          for (Bitboard* set : {&inside, &whole}) {
            for (Bitboard rest = *set; rest;) {
              const Square c = pop_square(rest);
              const int cross = (file_of(b) - file_of(a)) * (rank_of(c) - rank_of(a)) -
                                (rank_of(b) - rank_of(a)) * (file_of(c) - file_of(a));
              if (cross != 0) *set &= ~bit(c);
            }
          }
        }
      }
      EXPECT_EQ(between(a, b), inside) << int{a} << ' ' << int{b};
      EXPECT_EQ(line(a, b), whole) << int{a} << ' ' << int{b};
    }
  }
}

TEST(Attacks, ShiftsDoNotWrap) {
  EXPECT_EQ(shift<9>(kFileH), 0u);
  EXPECT_EQ(shift<-7>(kFileH), 0u);
  EXPECT_EQ(shift<7>(kFileA), 0u);
  EXPECT_EQ(shift<-9>(kFileA), 0u);
  EXPECT_EQ(shift<8>(rank_mask(7)), 0u);
  EXPECT_EQ(shift<-8>(rank_mask(0)), 0u);
}

// The tables are filled before ordinary static objects, so that those may use them.
const Bitboard kEarly = rook_attacks(0, 0);
TEST(Attacks, ReadyDuringStaticInitialisation) { EXPECT_EQ(kEarly, walk(0, 0, false)); }

}  // namespace
}  // namespace plyscribe::board
