#include <gtest/gtest.h>

#include <string>

#include "board/notation.h"

namespace plyscribe::board {
namespace {

TEST(Uci, ReadsAndWritesBack) {
  const struct {
    const char *fen, *uci;
  } rows[] = {
      {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", "e2e4"},
      {"r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1", "e1g1"},
      {"r3k2r/8/8/8/8/8/8/R3K2R b KQkq - 0 1", "e8c8"},
      {"4k3/8/8/3pP3/8/8/8/4K3 w - d6 0 1", "e5d6"},
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a7a8q"},
      {"8/P6k/8/8/8/8/8/4K3 w - - 0 1", "a7a8n"},
  };
  for (const auto& row : rows) {
    const Result<Position> p = parse_fen(row.fen);
    ASSERT_TRUE(p) << p.error().message;
    const Result<Move> m = parse_uci(*p, row.uci);
    ASSERT_TRUE(m) << m.error().message;
    EXPECT_EQ(to_uci(*m), row.uci);
  }
}

TEST(Uci, RejectsAndSaysWhy) {
  const struct {
    const char *uci, *kind;
  } rows[] = {
      {"", "unreadable"},      {"e2", "unreadable"},     {"e2e", "unreadable"},
      {"e2e9", "unreadable"},  {"i2e4", "unreadable"},   {"E2E4", "unreadable"},
      {"e2-e4", "unreadable"}, {"e7e8k", "unreadable"},  {"e7e8Q", "unreadable"},
      {"0000", "unreadable"},  {"e2e4 e5", "unreadable"}, {"e2e5", "illegal"},
      {"e7e5", "illegal"},     {"e1g1", "illegal"},      {"e2e4q", "illegal"},
      {"d4d5", "illegal"},     {"e2e2", "illegal"},
  };
  const Position p = Position::initial();
  for (const auto& row : rows) {
    const Result<Move> m = parse_uci(p, row.uci);
    ASSERT_FALSE(m) << row.uci;
    EXPECT_EQ(m.error().message,
              std::string(row.kind) + " move \"" + row.uci + "\" in " + to_fen(p));
  }
}

// The sample game of the PGN standard (1994), section 2.3: Fischer against Spassky, Belgrade 1992.
// Value from memory.
TEST(Line, ReadsTheStandardsSampleGame) {
  const char* game =
      "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3 O-O 9. h3 Nb8 "
      "10. d4 Nbd7 11. c4 c6 12. cxb5 axb5 13. Nc3 Bb7 14. Bg5 b4 15. Nb1 h6 16. Bh4 c5 17. dxe5 "
      "Nxe4 18. Bxe7 Qxe7 19. exd6 Qf6 20. Nbd2 Nxd6 21. Nc4 Nxc4 22. Bxc4 Nb6 23. Ne5 Rae8 24. "
      "Bxf7+ Rxf7 25. Nxf7 Rxe1+ 26. Qxe1 Kxf7 27. Qe3 Qg5 28. Qxg5 hxg5 29. b3 Ke6 30. a3 Kd6 31. "
      "axb4 cxb4 32. Ra5 Nd5 33. f3 Bc8 34. Kf2 Bf5 35. Ra7 g6 36. Ra6+ Kc5 37. Ke1 Nf4 38. g3 "
      "Nxh3 39. Kd2 Kb5 40. Rd6 Kc5 41. Ra6 Nf2 42. g4 Bd3 43. Re6";
  const Result<std::vector<Move>> line = parse_line(Position::initial(), game);
  ASSERT_TRUE(line) << line.error().message;
  ASSERT_EQ(line->size(), 85u);

  Position p = Position::initial();
  std::string written;
  for (Move m : *line) {
    if (!written.empty()) written += ' ';
    if (p.side_to_move() == Color::kWhite) written += std::to_string(p.fullmove_number()) + ". ";
    written += to_san(p, m);
    p = p.after(m);
  }
  EXPECT_EQ(written, game);
  EXPECT_EQ(to_fen(p), "8/8/4R1p1/2k3p1/1p4P1/1P1b1P2/3K1n2/8 b - - 2 43");
}

TEST(Line, MoveNumbersMayTakeAnyForm) {
  for (const char* text : {"e4 e5 Nf3", "1. e4 e5 2. Nf3", "1.e4 e5 2.Nf3", "1 e4 e5 2 Nf3",
                           "1. e4 1... e5 2. Nf3", "1.e4 1...e5 2.Nf3", "  e4\n e5\t2.  Nf3 "}) {
    const Result<std::vector<Move>> line = parse_line(Position::initial(), text);
    ASSERT_TRUE(line) << line.error().message;
    std::string uci;
    for (Move m : *line) uci += to_uci(m) + ' ';
    EXPECT_EQ(uci, "e2e4 e7e5 g1f3 ") << text;
  }
  const Result<std::vector<Move>> none = parse_line(Position::initial(), " 1. ");
  ASSERT_TRUE(none);
  EXPECT_TRUE(none->empty());
}

TEST(Line, CastlingWithDigitsIsNoMoveNumber) {
  const Result<Position> p = parse_fen("r3k2r/8/8/8/8/8/8/R3K2R w KQkq - 0 1");
  ASSERT_TRUE(p);
  const Result<std::vector<Move>> line = parse_line(*p, "1. 0-0 0-0-0");
  ASSERT_TRUE(line) << line.error().message;
  EXPECT_EQ(line->size(), 2u);
}

TEST(Line, NamesTheMoveThatFailed) {
  const Result<std::vector<Move>> line = parse_line(Position::initial(), "1. e4 e5 2. Ke3 Nf6");
  ASSERT_FALSE(line);
  EXPECT_EQ(line.error().message,
            "illegal move \"Ke3\" in "
            "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2");
}

}  // namespace
}  // namespace plyscribe::board
