#include <gtest/gtest.h>

#include "board/notation.h"
#include "board/position.h"

namespace plyscribe::board {
namespace {

// Worked by hand; pawn 100, knight 300, bishop 320, rook 500, queen 900.
TEST(StaticExchange, RowsWorkedByHand) {
  const struct {
    const char *fen, *move;
    int won;
    const char* why;
  } rows[] = {
      {"4k3/8/8/3p4/4P3/8/8/4K3 w - -", "e4d5", 100, "a free pawn"},
      {"4k3/8/3p4/4p3/3P4/8/8/4K3 w - -", "d4e5", 0, "pawn for pawn"},
      {"4k3/8/3p4/4p3/8/8/8/K3R3 w - -", "e1e5", -400, "100 - 500"},
      {"k3r3/8/8/4p3/8/8/4R3/K3R3 w - -", "e2e5", 100, "100 - 500 + 500, or Black leaves it"},
      {"k3r3/4r3/8/4p3/8/8/4R3/K3R3 w - -", "e2e5", -400, "White stops after 100 - 500"},
      {"k7/8/8/2p5/3p4/4B3/5Q2/K7 w - -", "e3d4", -120, "100 - 320 + 100, the queen behind"},
      {"k7/8/3p4/4n3/8/3N4/8/K7 w - -", "d3e5", 0, "knight for knight"},
      {"k7/3q4/3p4/4p3/8/5N2/8/K7 w - -", "f3e5", -200, "the pawn takes first: 100 - 300"},
      {"8/8/3k4/4p3/8/8/8/K3R3 w - -", "e1e5", -400, "the king takes back"},
      {"8/8/3k4/4p3/8/8/4R3/K3R3 w - -", "e2e5", 100, "the king may not take back"},
      {"8/8/3k4/4p3/3P4/8/8/K3R3 w - -", "d4e5", 100, "the rook guards the pawn from the king"},
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d6", "e5d6", 100, "en passant, free"},
      {"4k3/2p5/8/3pP3/8/8/8/4K3 w - d6", "e5d6", 0, "en passant, taken back"},
      {"3rk3/8/8/3pP3/8/8/8/3RK3 w - d6", "e5d6", 100,
       "en passant opens the file for both: Rxd6 Rxd6 costs Black the rook"},
      {"8/4P3/8/8/8/8/k7/6K1 w - -", "e7e8q", 800, "a new queen"},
      {"8/4P3/8/8/8/8/k7/6K1 w - -", "e7e8n", 200, "a new knight"},
      {"r7/4P3/8/8/8/8/k7/6K1 w - -", "e7e8q", -100, "the new queen is taken"},
      {"r7/4P3/8/8/8/8/k7/4R1K1 w - -", "e7e8q", 400, "800 - 900 + 500"},
      {"3r4/4P3/8/8/8/8/k7/6K1 w - -", "e7d8q", 1300, "rook and new queen"},
      {"k7/8/8/8/8/5N2/3p3K/4r3 w - -", "f3e1", -600, "500 - 300, and the pawn queens"},
      {"k7/8/8/2p5/8/8/8/K2Q4 w - -", "d1d4", -900, "a quiet move into a pawn's reach"},
      {"k7/8/8/2p5/8/8/8/K2Q4 w - -", "d1d3", 0, "a quiet move"},
      {"k7/8/8/2p5/8/4B3/8/K2Q4 w - -", "d1d4", -800, "the same, but guarded: -900 + 100"},
      {"4k3/8/8/8/8/8/8/4K2R w K -", "e1g1", 0, "castling"},
      {"k2r4/3q4/8/3p4/8/8/3R4/K2R4 b - -", "d5d4", 0, "two attack, two guard: not worth it"},
      {"k7/8/8/3p4/8/8/3R4/K2R4 b - -", "d5d4", -100, "two attack, none guards"},
      {"k2q4/3r4/8/3n4/8/1B6/3R4/K2R4 w - -", "b3d5", 300,
       "300 - 320 + 500 - 900 stops early: Black leaves it"},
  };
  for (const auto& row : rows) {
    const Result<Position> p = parse_fen(row.fen);
    ASSERT_TRUE(p) << p.error().message;
    const Result<Move> m = parse_uci(*p, row.move);
    ASSERT_TRUE(m) << m.error().message;
    EXPECT_EQ(static_exchange(*p, *m), row.won) << row.fen << ' ' << row.move << ": " << row.why;
  }
}

}  // namespace
}  // namespace plyscribe::board
