#include <gtest/gtest.h>

#include <string>

#include "board/notation.h"

namespace plyscribe::board {
namespace {

constexpr const char* kInitial = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";

TEST(San, Writes) {
  const struct {
    const char *fen, *uci, *san;
  } rows[] = {
      // PGN standard (1994) 8.2.3.3: pieces by letter, pawns by square, captures by x.
      {kInitial, "e2e4", "e4"},
      {kInitial, "g1f3", "Nf3"},
      {"4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1", "e4d5", "exd5"},
      {"4k3/8/5n2/3p4/8/2N5/8/4K3 w - - 0 1", "c3d5", "Nxd5"},
      {"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "e1g1", "O-O"},
      {"r3k2r/8/8/8/8/8/8/R3K2R b KQkq - 0 1", "e8c8", "O-O-O"},
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "e5d6", "exd6"},
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a7a8q", "a8=Q"},
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a7a8n", "a8=N"},
      {"1r6/P6k/8/8/8/8/8/4K3 w - - 0 1", "a7b8r", "axb8=R"},
      // 8.2.3.4: file, else rank, else both.
      {"4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", "c3e2", "Nce2"},
      {"4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", "g1e2", "Nge2"},
      {"4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1", "g1e2", "Ne2"},  // the other is pinned: its example
      {"4k3/8/8/R7/8/8/8/R3K3 w - - 0 1", "a1a3", "R1a3"},
      {"4k3/8/8/R7/8/8/8/R3K3 w - - 0 1", "a5a3", "R5a3"},
      {"1k6/8/8/8/4Q2Q/8/8/K6Q w - - 0 1", "h4e1", "Qh4e1"},
      {"1k6/8/8/8/4Q2Q/8/8/K6Q w - - 0 1", "e4e1", "Qee1"},
      {"1k6/8/8/8/4Q2Q/8/8/K6Q w - - 0 1", "h1e1", "Q1e1"},
      // 8.2.3.5: check and checkmate; nothing for double or discovered check.
      {"rnbqkbnr/pppp1ppp/8/4p3/6P1/5P2/PPPPP2P/RNBQKBNR b KQkq - 0 2", "d8h4", "Qh4#"},
      {"3k4/8/8/8/8/8/4R3/4K3 w - - 0 1", "e2d2", "Rd2+"},
      {"4k3/8/8/8/4N3/8/4R3/4K3 w - - 0 1", "e4f6", "Nf6+"},
      {"5k2/8/8/8/8/8/8/4K2R w K - 0 1", "e1g1", "O-O+"},
      {"3k4/8/8/8/8/8/8/R3K3 w Q - 0 1", "e1c1", "O-O-O+"},
      {"6k1/4Pppp/8/8/8/8/8/4K3 w - - 0 1", "e7e8q", "e8=Q#"},
      {"7k/5Q2/8/6K1/8/8/8/8 w - - 0 1", "g5g6", "Kg6"},  // stalemate has no mark
      // 8.2.3.6: the longest moves.
      {"Q7/1p5k/Q1Q5/8/8/8/8/K7 w - - 0 1", "a6b7", "Qa6xb7#"},
      {"8/8/8/8/3k4/8/5p2/1K4N1 b - - 0 1", "f2g1q", "fxg1=Q+"},
  };
  for (const auto& row : rows) {
    const Result<Position> p = parse_fen(row.fen);
    ASSERT_TRUE(p) << p.error().message;
    const Result<Move> m = parse_uci(*p, row.uci);
    ASSERT_TRUE(m) << m.error().message;
    EXPECT_EQ(to_san(*p, *m), row.san) << row.fen << ' ' << row.uci;
    const Result<Move> back = parse_san(*p, row.san);
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(to_uci(*back), row.uci) << row.fen << ' ' << row.san;
  }
}

TEST(San, ReadsLeniently) {
  const struct {
    const char *fen, *san, *uci;
  } rows[] = {
      // Marks missing, wrong or doubled; annotations (PGN standard 8.2.3.5, 8.2.3.8).
      {kInitial, "e4+", "e2e4"},
      {kInitial, "e4#", "e2e4"},
      {kInitial, "e4!?", "e2e4"},
      {kInitial, "Nf3??", "g1f3"},
      {kInitial, "e4=", "e2e4"},
      {"4k3/8/8/8/4N3/8/4R3/4K3 w - - 0 1", "Nf6", "e4f6"},
      {"4k3/8/8/8/4N3/8/4R3/4K3 w - - 0 1", "Nf6++!", "e4f6"},
      // Castling with digits or small letters.
      {"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "0-0", "e1g1"},
      {"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "0-0-0!", "e1c1"},
      {"r3k2r/8/8/8/8/8/8/R3K2R b KQkq - 0 1", "o-o", "e8g8"},
      {"5k2/8/8/8/8/8/8/4K2R w K - 0 1", "0-0+", "e1g1"},
      // x missing, superfluous or another sign.
      {"4k3/8/5n2/3p4/8/2N5/8/4K3 w - - 0 1", "Nd5", "c3d5"},
      {"4k3/8/5n2/3p4/8/2N5/8/4K3 w - - 0 1", "N:d5", "c3d5"},
      {"4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1", "ed5", "e4d5"},
      {kInitial, "Nxf3", "g1f3"},
      // Superfluous disambiguation, long notation, pawn letter.
      {kInitial, "Ngf3", "g1f3"},
      {kInitial, "N1f3", "g1f3"},
      {kInitial, "Ng1f3", "g1f3"},
      {kInitial, "Ng1-f3", "g1f3"},
      {kInitial, "e2e4", "e2e4"},
      {kInitial, "e2-e4", "e2e4"},
      {kInitial, "Pe4", "e2e4"},
      {"4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1", "e4xd5", "e4d5"},
      // En passant, marked.
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "exd6e.p.", "e5d6"},
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "exd6 e.p.", "e5d6"},
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "exd6ep+", "e5d6"},
      // Promotion without =, and with other signs.
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a8Q", "a7a8q"},
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a8=b", "a7a8b"},
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a8(R)", "a7a8r"},
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a8/N!", "a7a8n"},
      {"1r6/P6k/8/8/8/8/8/4K3 w - - 0 1", "ab8Q", "a7b8q"},
      // b is the file, B the bishop.
      {"4k3/8/8/8/8/2p5/1P1B4/4K3 w - - 0 1", "bxc3", "b2c3"},
      {"4k3/8/8/8/8/2p5/1P1B4/4K3 w - - 0 1", "Bxc3", "d2c3"},
      {"4k3/8/8/8/8/2p5/1P1B4/4K3 w - - 0 1", "bc3", "b2c3"},
      {"4k3/8/8/8/8/2p5/1P1B4/4K3 w - - 0 1", "Bc3", "d2c3"},
  };
  for (const auto& row : rows) {
    const Result<Position> p = parse_fen(row.fen);
    ASSERT_TRUE(p) << p.error().message;
    const Result<Move> m = parse_san(*p, row.san);
    ASSERT_TRUE(m) << m.error().message;
    EXPECT_EQ(to_uci(*m), row.uci) << row.fen << ' ' << row.san;
  }
}

TEST(San, RejectsAndSaysWhy) {
  const struct {
    const char *fen, *san, *kind;
  } rows[] = {
      {kInitial, "", "unreadable"},
      {kInitial, "N", "unreadable"},
      {kInitial, "e", "unreadable"},
      {kInitial, "e9", "unreadable"},
      {kInitial, "i4", "unreadable"},
      {kInitial, "E4", "unreadable"},
      {kInitial, "nf3", "unreadable"},
      {kInitial, "Xf3", "unreadable"},
      {kInitial, "Nf3x", "unreadable"},
      {kInitial, "Nf33", "unreadable"},
      {kInitial, "NNf3", "unreadable"},
      {kInitial, "Nf3 e5", "unreadable"},
      {kInitial, "e8=K", "unreadable"},
      {kInitial, "e8=P", "unreadable"},
      {kInitial, "=Q", "unreadable"},
      {kInitial, "x=Q", "unreadable"},
      {kInitial, "(Q)", "unreadable"},
      {kInitial, "O-O-O-O", "unreadable"},
      {kInitial, "OO", "unreadable"},
      {kInitial, "+", "unreadable"},
      {kInitial, "1-0", "unreadable"},
      {kInitial, "--", "unreadable"},
      {kInitial, "\xE2\x99\x98" "f3", "unreadable"},
      {kInitial, "e5", "illegal"},
      {kInitial, "Nd2", "illegal"},
      {kInitial, "Nbf3", "illegal"},
      {kInitial, "N2f3", "illegal"},
      {kInitial, "exd5", "illegal"},
      {kInitial, "O-O", "illegal"},
      {kInitial, "e4=Q", "illegal"},
      {"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "Kg1", "illegal"},  // that is O-O
      {"4r2k/8/8/8/8/8/4N3/4K3 w - - 0 1", "Nc3", "illegal"},      // pinned
      {"4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", "Ne2", "ambiguous"},
      {"1k6/8/8/8/4Q2Q/8/8/K6Q w - - 0 1", "Qhe1", "ambiguous"},
      {"1k6/8/8/8/4Q2Q/8/8/K6Q w - - 0 1", "Q4e1", "ambiguous"},
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a8", "ambiguous"},  // into what?
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a8=", "ambiguous"},
      {"7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", "Kg8", "illegal"},  // stalemate
  };
  for (const auto& row : rows) {
    const Result<Position> p = parse_fen(row.fen);
    ASSERT_TRUE(p) << p.error().message;
    const Result<Move> m = parse_san(*p, row.san);
    ASSERT_FALSE(m) << row.fen << ' ' << row.san << " read as " << to_uci(*m);
    EXPECT_EQ(m.error().message,
              std::string(row.kind) + " move \"" + row.san + "\" in " + row.fen);
  }
}

}  // namespace
}  // namespace plyscribe::board
