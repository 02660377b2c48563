#include <gtest/gtest.h>

#include <string>

#include "board/notation.h"

namespace plyscribe::board {
namespace {

TEST(Fen, ReadsAndWritesBack) {
  const char* rows[] = {
      // PGN standard (1994) 16.1.4, the examples that have no en-passant square.
      "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
      "rnbqkbnr/pp1ppppp/8/2p5/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2",
      "4k3/8/8/8/8/8/4P3/4K3 w - - 5 39",
      // Castling rights, each alone and in pairs (16.1.3.3).
      "r3k2r/8/8/8/8/8/8/R3K2R w K - 0 1",
      "r3k2r/8/8/8/8/8/8/R3K2R w Q - 0 1",
      "r3k2r/8/8/8/8/8/8/R3K2R b k - 0 1",
      "r3k2r/8/8/8/8/8/8/R3K2R b q - 0 1",
      "r3k2r/8/8/8/8/8/8/R3K2R w Qk - 12 34",
      // An en-passant square that can be used (16.1.3.4).
      "rnbqkbnr/ppp1p1pp/8/3pPp2/8/8/PPPP1PPP/RNBQKBNR w KQkq f6 0 3",
      "rnbqkbnr/ppp1pppp/8/8/3pP3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 3",
      // Checkmate and stalemate are positions like any other.
      "rnb1kbnr/pppp1ppp/8/4p3/6Pq/5P2/PPPPP2P/RNBQKBNR w KQkq - 1 3",
      "7k/5Q2/6K1/8/8/8/8/8 b - - 0 1",
      "8/8/8/8/8/8/8/K1k5 w - - 9999 9999",
  };
  for (const char* fen : rows) {
    const Result<Position> p = parse_fen(fen);
    ASSERT_TRUE(p) << p.error().message;
    EXPECT_EQ(to_fen(*p), fen);
  }
}

TEST(Fen, ReadsAndWritesShorter) {
  const struct {
    const char *fen, *written;
  } rows[] = {
      // PGN standard 16.1.4: after 1. e4 and 1... c5 nobody can take in passing.
      {"rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1",
       "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1"},
      {"rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq c6 0 2",
       "rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2"},
      // The taking pawn is pinned, or both pawns shield the king.
      {"4r2k/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "4r2k/8/8/3pP3/8/8/8/4K3 w - - 0 1"},
      {"7k/8/8/K2pP2r/8/8/8/8 w - d6 0 1", "7k/8/8/K2pP2r/8/8/8/8 w - - 0 1"},
      // Clocks missing; rights in another order; blanks to spare.
      {"4k3/8/8/8/8/8/4P3/4K3 w - -", "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"},
      {"r3k2r/8/8/8/8/8/8/R3K2R w kqKQ - 0 1", "r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1"},
      {"  4k3/8/8/8/8/8/4P3/4K3   w - -  3 7\n", "4k3/8/8/8/8/8/4P3/4K3 w - - 3 7"},
  };
  for (const auto& row : rows) {
    const Result<Position> p = parse_fen(row.fen);
    ASSERT_TRUE(p) << p.error().message;
    EXPECT_EQ(to_fen(*p), row.written) << row.fen;
  }
}

TEST(Fen, Rejects) {
  const struct {
    const char *fen, *reason;
  } rows[] = {
      // Fields.
      {"", "expected six fields"},
      {"4k3/8/8/8/8/8/8/4K3", "expected six fields"},
      {"4k3/8/8/8/8/8/8/4K3 w -", "expected six fields"},
      {"4k3/8/8/8/8/8/8/4K3 w - - 0", "expected six fields"},
      {"4k3/8/8/8/8/8/8/4K3 w - - 0 1 x", "expected six fields"},
      // Placement.
      {"4k3/8/8/8/8/8/4K3 w - - 0 1", "fewer than eight ranks"},
      {"4k3/8/8/8/8/8/8/8/4K3 w - - 0 1", "more than eight ranks"},
      {"4k3/8/8/8/8/8/8/4K2 w - - 0 1", "not eight squares"},
      {"4k3/7/8/8/8/8/8/4K3 w - - 0 1", "not eight squares"},
      {"4k3/8/8/8/8/8/8/4K4 w - - 0 1", "not eight squares"},
      {"4k3/8/8/8/8/8/8/4K3R w - - 0 1", "not eight squares"},
      {"4k3/44/8/8/8/8/8/4K3 w - - 0 1", "two digits"},
      {"4k3/9/8/8/8/8/8/4K3 w - - 0 1", "unknown letter"},
      {"4k3/0/8/8/8/8/8/4K3 w - - 0 1", "unknown letter"},
      {"4k3/7x/8/8/8/8/8/4K3 w - - 0 1", "unknown letter"},
      {"4k3/7\xC3\xA9/8/8/8/8/8/4K3 w - - 0 1", "unknown letter"},
      // Men.
      {"8/8/8/8/8/8/8/4K3 w - - 0 1", "one king"},
      {"4k3/8/8/8/8/8/8/8 w - - 0 1", "one king"},
      {"4k3/8/8/8/8/8/8/K3K3 w - - 0 1", "one king"},
      {"4k2P/8/8/8/8/8/8/4K3 w - - 0 1", "end rank"},
      {"4k3/8/8/8/8/8/8/p3K3 w - - 0 1", "end rank"},
      {"4k3/8/8/8/8/P7/PPPPPPPP/4K3 w - - 0 1", "more than eight pawns"},
      {"4k3/pppppppp/p7/8/8/8/8/4K3 w - - 0 1", "more than eight pawns"},
      {"4k3/8/8/8/8/Q7/PPPPPPPP/RNBQKBNR w - - 0 1", "more than sixteen men"},
      // Side to move.
      {"4k3/8/8/8/8/8/8/4K3 W - - 0 1", "w or b"},
      {"4k3/8/8/8/8/8/8/4K3 - - - 0 1", "w or b"},
      {"4k3/8/8/8/8/8/4r3/4K3 b - - 0 1", "not to move is in check"},
      {"8/8/8/8/8/8/3k4/4K3 w - - 0 1", "not to move is in check"},
      // Castling.
      {"r3k2r/8/8/8/8/8/8/R3K2R w KQxq - 0 1", "KQkq"},
      {"r3k2r/8/8/8/8/8/8/R3K2R w K- - 0 1", "KQkq"},
      {"r3k2r/8/8/8/8/8/8/R3K2R w KK - 0 1", "twice"},
      {"r3k2r/8/8/8/8/8/8/R2K3R w K - 0 1", "castling right without"},
      {"r3k3/8/8/8/8/8/8/4K2R w k - 0 1", "castling right without"},
      {"4k3/8/8/8/8/8/8/r3K3 w Q - 0 1", "castling right without"},
      // En passant.
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d 0 1", "- or a square"},
      {"4k3/8/8/3pP3/8/8/8/4K3 w - i6 0 1", "- or a square"},
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d9 0 1", "- or a square"},
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d3 0 1", "wrong rank"},
      {"4k3/8/8/3pP3/8/8/8/4K3 b - d6 0 1", "wrong rank"},
      {"4k3/8/8/4P3/8/8/8/4K3 w - d6 0 1", "without a pawn"},
      {"4k3/8/8/3nP3/8/8/8/4K3 w - d6 0 1", "without a pawn"},
      {"4k3/8/3n4/3pP3/8/8/8/4K3 w - d6 0 1", "occupied"},
      {"4k3/3n4/8/3pP3/8/8/8/4K3 w - d6 0 1", "occupied"},
      // Clocks.
      {"4k3/8/8/8/8/8/8/4K3 w - - -1 1", "halfmove clock"},
      {"4k3/8/8/8/8/8/8/4K3 w - - x 1", "halfmove clock"},
      {"4k3/8/8/8/8/8/8/4K3 w - - 0 0", "move number"},
      {"4k3/8/8/8/8/8/8/4K3 w - - 0 1.", "move number"},
      {"4k3/8/8/8/8/8/8/4K3 w - - 0 99999999999", "move number"},
  };
  for (const auto& row : rows) {
    const Result<Position> p = parse_fen(row.fen);
    ASSERT_FALSE(p) << row.fen;
    EXPECT_NE(p.error().message.find(row.reason), std::string::npos) << p.error().message;
    EXPECT_NE(p.error().message.find(row.fen), std::string::npos) << p.error().message;
  }
}

TEST(Fen, PlacementIsTheFirstThreeFields) {
  EXPECT_EQ(to_fen_placement(Position::initial()),
            "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq");
  EXPECT_EQ(to_fen_placement(Position()), "8/8/8/8/8/8/8/8 w -");
}

}  // namespace
}  // namespace plyscribe::board
