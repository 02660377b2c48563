// Published perft counts. All values are quoted from memory of the tables that are common in the
// trade; that an independent generator reaches them is what makes them evidence.
#include <gtest/gtest.h>

#include <ostream>
#include <string>
#include <vector>

#include "board/notation.h"
#include "board/position.h"

namespace plyscribe::board {
namespace {

struct Row {
  const char* name;
  const char* fen;
  std::vector<std::uint64_t> nodes;  // at depth first, first + 1, ...
  int first = 1;
};

void check(const std::vector<Row>& rows) {
  for (const Row& row : rows) {
    SCOPED_TRACE(std::string(row.name) + ": " + row.fen);
    const Result<Position> p = parse_fen(row.fen);
    ASSERT_TRUE(p) << p.error().message;
    int depth = row.first;
    for (std::uint64_t nodes : row.nodes) {
      EXPECT_EQ(perft(*p, depth), nodes) << "depth " << depth;
      ++depth;
    }
  }
}

// The six positions of the common perft results page, numbered as there.
TEST(Perft, CommonResultsPage) {
  check({
      {"position 1, initial",
       "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
       {20, 400, 8902, 197281, 4865609, 119060324}},
      {"position 2",
       "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
       {48, 2039, 97862, 4085603, 193690690}},
      {"position 3",
       "8/2p5/3p4/KP5r/1R3p1k/8/4P1P1/8 w - - 0 1",
       {14, 191, 2812, 43238, 674624, 11030083}},
      {"position 4",
       "r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1",
       {6, 264, 9467, 422333, 15833292}},
      {"position 4, colours exchanged",
       "r2q1rk1/pP1p2pp/Q4n2/bbp1p3/Np6/1B3NBn/pPPP1PPP/R3K2R b KQ - 0 1",
       {6, 264, 9467, 422333, 15833292}},
      {"position 5",
       "rnbq1k1r/pp1Pbppp/2p5/8/2B5/8/PPP1NnPP/RNBQK2R w KQ - 1 8",
       {44, 1486, 62379, 2103487, 89941194}},
      {"position 6",
       "r4rk1/1pp1qppp/p1np1n2/2b1p1B1/2B1P1b1/P1NP1N2/1PP1QPPP/R4RK1 w - - 0 10",
       {46, 2079, 89890, 3894594, 164075551}},
  });
}

// The short list of single-rule positions that is passed around with it.
TEST(Perft, SpecialCases) {
  check({
      {"en passant would open the rank", "3k4/3p4/8/K1P4r/8/8/8/8 b - - 0 1", {1134888}, 6},
      {"the same, colours exchanged", "8/8/8/8/k1p4R/8/3P4/3K4 w - - 0 1", {1134888}, 6},
      {"en passant would open a diagonal", "8/8/4k3/8/2p5/8/B2P2K1/8 w - - 0 1", {1015133}, 6},
      {"the same, colours exchanged", "8/b2p2k1/8/2P5/8/4K3/8/8 b - - 0 1", {1015133}, 6},
      {"en passant gives check", "8/8/1k6/2b5/2pP4/8/5K2/8 b - d3 0 1", {1440467}, 6},
      {"the same, colours exchanged", "8/5k2/8/2Pp4/2B5/1K6/8/8 w - d6 0 1", {1440467}, 6},
      {"short castling gives check", "5k2/8/8/8/8/8/8/4K2R w K - 0 1", {661072}, 6},
      {"long castling gives check", "3k4/8/8/8/8/8/8/R3K3 w Q - 0 1", {803711}, 6},
      {"rights lost by a taken rook", "r3k2r/1b4bq/8/8/8/8/7B/R3K2R w KQkq - 0 1", {1274206}, 4},
      {"castling prevented", "r3k2r/8/3Q4/8/8/5q2/8/R3K2R b KQkq - 0 1", {1720476}, 4},
      {"promotion out of check", "2K2r2/4P3/8/8/8/8/8/3k4 w - - 0 1", {3821001}, 6},
      {"discovered check", "8/8/1P2K3/8/2n5/1q6/8/5k2 b - - 0 1", {1004658}, 5},
      {"promotion gives check", "4k3/1P6/8/8/8/8/K7/8 w - - 0 1", {217342}, 6},
      {"underpromotion gives check", "8/P1k5/K7/8/8/8/8/8 w - - 0 1", {92683}, 6},
      {"self-stalemate", "K1k5/8/P7/8/8/8/8/8 w - - 0 1", {2217}, 6},
      {"stalemate and checkmate", "8/k1P5/8/1K6/8/8/8/8 w - - 0 1", {567584}, 7},
      {"double check", "8/8/2k5/5q2/5n2/8/5K2/8 b - - 0 1", {23527}, 4},
  });
}

TEST(Perft, DepthZeroIsOneNode) { EXPECT_EQ(perft(Position::initial(), 0), 1u); }

// The most legal moves any known position has; MoveList is sized for it. Value from memory.
TEST(Perft, MostMoves) {
  check({{"218 moves", "R6R/3Q4/1Q4Q1/4Q3/2Q4Q/Q4Q2/pp1Q4/kBNN1KB1 w - - 0 1", {218}}});
}

}  // namespace
}  // namespace plyscribe::board
