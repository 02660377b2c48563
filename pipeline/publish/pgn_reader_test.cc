#include "publish/pgn_reader.h"

#include <gtest/gtest.h>

#include <random>
#include <string>

#include "board/notation.h"

namespace plyscribe::publish {
namespace {

// A game in one line: each move as SAN, glyphs and comments behind it; a variation in brackets
// stands behind the move it replaces, as in PGN.
std::string dump(const PgnGame& game) {
  std::string out;
  for (std::size_t i = 0; i < game.nodes.size(); ++i) {
    const PgnNode& node = game.nodes[i];
    if (i > 0) {
      const auto& before = game.nodes[static_cast<std::size_t>(node.parent)].position;
      if (static_cast<std::size_t>(node.parent) + 1 != i) {
        out += "<" + std::to_string(node.parent) + "> ";
      }
      out += board::to_san(before, node.move) + " ";
    }
    for (const int nag : node.nags) out += "$" + std::to_string(nag) + " ";
    for (const std::string& comment : node.comments) out += "{" + comment + "} ";
  }
  return out + (game.result.empty() ? "-" : game.result);
}

std::string dump(const std::string& pgn) {
  const auto games = read_pgn(pgn, "test");
  if (!games) return games.error().message;
  std::string out;
  for (const PgnGame& game : *games) out += (out.empty() ? "" : " | ") + dump(game);
  return out;
}

struct Row {
  const char *pgn, *dump;
};

void expect_dumps(std::initializer_list<Row> rows) {
  for (const Row& row : rows) EXPECT_EQ(dump(std::string(row.pgn)), row.dump) << row.pgn;
}

// Sections are those of the PGN standard of 1994.

TEST(ReadPgn, SampleGameOfSection2_3) {
  const auto games = read_pgn(
      "[Event \"Return match\"]\n[Site \"?\"]\n[Date \"1992.11.04\"]\n[Round \"29\"]\n"
      "[White \"?\"]\n[Black \"?\"]\n[Result \"1/2-1/2\"]\n\n"
      "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3\n"
      "O-O 9. h3 Nb8 10. d4 Nbd7 11. c4 c6 12. cxb5 axb5 13. Nc3 Bb7 14. Bg5 b4 15.\n"
      "Nb1 h6 16. Bh4 c5 17. dxe5 Nxe4 18. Bxe7 Qxe7 19. exd6 Qf6 20. Nbd2 Nxd6 21.\n"
      "Nc4 Nxc4 22. Bxc4 Nb6 23. Ne5 Rae8 24. Bxf7+ Rxf7 25. Nxf7 Rxe1+ 26. Qxe1 Kxf7\n"
      "27. Qe3 Qg5 28. Qxg5 hxg5 29. b3 Ke6 30. a3 Kd6 31. axb4 cxb4 32. Ra5 Nd5 33.\n"
      "f3 Bc8 34. Kf2 Bf5 35. Ra7 g6 36. Ra6+ Kc5 37. Ke1 Nf4 38. g3 Nxh3 39. Kd2 Kb5\n"
      "40. Rd6 Kc5 41. Ra6 Nf2 42. g4 Bd3 43. Re6 1/2-1/2\n",
      "sample");
  ASSERT_TRUE(games) << games.error().message;
  ASSERT_EQ(games->size(), 1u);
  const PgnGame& game = (*games)[0];
  EXPECT_EQ(game.nodes.size(), 86u);
  EXPECT_EQ(game.result, "1/2-1/2");
  EXPECT_EQ(game.tag("Round"), "29");
  EXPECT_EQ(board::to_fen(game.nodes.back().position),
            "8/8/4R1p1/2k3p1/1p4P1/1P1b1P2/3K1n2/8 b - - 2 43");
}

TEST(ReadPgn, CommentsOfSection5) {
  expect_dumps({
      {"1. e4 {brace} e5 ; to the end of the line 2. Nf3\n2. d4 *",
       "e4 {brace} e5 { to the end of the line 2. Nf3} d4 *"},
      {"1. e4 {no { nesting} e5 *", "e4 {no { nesting} e5 *"},
      {"1. e4 {a ; in braces} e5 *", "e4 {a ; in braces} e5 *"},
      {"1. e4 ; a { in a line\n e5 *", "e4 { a { in a line} e5 *"},
      {"{before} 1. e4 {two\n lines} {and another} *", "{before} e4 {two lines} {and another} *"},
  });
}

TEST(ReadPgn, EscapedLinesOfSection6) {
  expect_dumps({
      {"%first\n1. e4\n% 1... c5 (\ne5 *", "e4 e5 *"},
      {"1. e4 % e5 *", "test:1: expected a move, found '%'"},  // only in the first column
  });
}

TEST(ReadPgn, TagPairsOfSection8_1) {
  const auto games =
      read_pgn("\xEF\xBB\xBF[Event \"a \\\"b\\\" \\\\ c\"]\r\n  [ Site\t\"?\" ]\r\n\r\n*\r\n", "t");
  ASSERT_TRUE(games) << games.error().message;
  ASSERT_EQ((*games)[0].tags.size(), 2u);
  EXPECT_EQ((*games)[0].tag("Event"), "a \"b\" \\ c");
  EXPECT_EQ((*games)[0].tag("Site"), "?");
  EXPECT_EQ((*games)[0].tag("Date"), "");
}

TEST(ReadPgn, MoveNumbersOfSection8_2_2) {
  expect_dumps({
      {"1. e4 e5 2. Nf3 *", "e4 e5 Nf3 *"},
      {"1.e4 e5 2.Nf3 *", "e4 e5 Nf3 *"},
      {"1 . e4 1... e5 2..Nf3 *", "e4 e5 Nf3 *"},
      {"1 e4 1 e5 7. Nf3 *", "e4 e5 Nf3 *"},
      {"1e4 e5 2Nf3 *", "e4 e5 Nf3 *"},
      {"e4 e5 Nf3 *", "e4 e5 Nf3 *"},
  });
}

TEST(ReadPgn, MovesOfSection8_2_3) {
  expect_dumps({
      {"1. e4 e5 2. Nf3 Nf6 3. Bc4 Bc5 4. O-O O-O *", "e4 e5 Nf3 Nf6 Bc4 Bc5 O-O O-O *"},
      {"1. e4 e5 2. Nf3 Nf6 3. Bc4 Bc5 4. 0-0 0-0 *", "e4 e5 Nf3 Nf6 Bc4 Bc5 O-O O-O *"},
      {"1. f3 e5 2. g4 Qh4++ *", "f3 e5 g4 Qh4# *"},
      {"1. e4 e6 2. e5 d5 3. exd6 e.p. *", "e4 e6 e5 d5 exd6 *"},
      {"[FEN \"8/P7/8/8/8/8/8/K1k5 w - - 0 1\"]\n1. a8=Q *", "a8=Q *"},
      {"1. e4! e5? 2. Nf3!! Nf6?? 3. Nxe5!? d6?! *", "e4 $1 e5 $2 Nf3 $3 Nf6 $4 Nxe5 $5 d6 $6 *"},
  });
}

TEST(ReadPgn, GlyphsOfSection8_2_4) {
  expect_dumps({
      {"1. e4 $1 $14 e5 $139 *", "e4 $1 $14 e5 $139 *"},
      {"1. e4 $ *", "test:1: expected a number behind $"},
  });
}

TEST(ReadPgn, VariationsOfSection8_2_5) {
  // "<n>" says that the next move stands behind move n (0: the start) rather than the last one.
  expect_dumps({
      {"1. e4 (1. d4 d5) e5 *", "e4 <0> d4 d5 <1> e5 *"},
      {"1. e4 (1. d4 (1. c4 {c} c5) d5) (1. Nf3) 1... e5 *",
       "e4 <0> d4 <0> c4 {c} c5 <2> d5 <0> Nf3 <1> e5 *"},
      {"1. e4 ({early} 1. d4) e5 *", "e4 <0> d4 {early} <1> e5 *"},
      {"1. e4 () e5 *", "e4 e5 *"},
      {"1. e4 (1. d4) *", "e4 <0> d4 *"},
      {"(1. e4) *", "test:1: expected a move before ("},
      {"1. e4 ((1. d4)) *", "test:1: expected a move before ("},
      {"1. e4 )\n*", "test:1: expected ( before )"},
      {"1. e4\n(1. d4\n\n*", "test:2: expected ) to end the variation begun here"},
  });
}

TEST(ReadPgn, ResultsOfSection8_2_6AndSeveralGames) {
  expect_dumps({
      {"1. e4 1-0", "e4 1-0"},
      {"1. e4 0-1", "e4 0-1"},
      {"1. e4 1/2-1/2", "e4 1/2-1/2"},
      {"1. e4 *", "e4 *"},
      {"1. e4", "e4 -"},
      {"*", "*"},
      {"1. e4 1-0\n1. d4 *\n", "e4 1-0 | d4 *"},
      {"[Event \"a\"]\n1. e4\n[Event \"b\"]\n1. d4 *", "e4 - | d4 *"},
      {"1. e4 * {between} [Event \"b\"]\n1. d4 *", "e4 * | d4 *"},
      {"[Event \"a\"]\n", "-"},
      {"", ""},
      {" \n\r\n", ""},
  });
}

TEST(ReadPgn, ErrorsNameTheLine) {
  for (const Row& row : {
           Row{"1. e4 e5\n2. Ke3 *", "bad.pgn:2: expected a legal move"},
           Row{"1. e4 e5\n2. xyz *", "bad.pgn:2: expected a legal move"},
           Row{"1. e4\n{no end\n\n", "bad.pgn:2: expected } to end the comment begun here"},
           Row{"[Event \"no end]\n", "bad.pgn:1: expected \" to end the tag's value"},
           Row{"[Event \"a\" x]\n", "bad.pgn:1: expected ] to end the tag pair"},
           Row{"[Event]\n", "bad.pgn:1: expected a tag pair [Name \"value\"]"},
           Row{"[FEN \"not a position\"]\n\n1. e4 *", "bad.pgn:3: expected a position in the tag"},
           Row{"1. e4 \x01 *", "bad.pgn:1: expected a move, found 'byte 01'"},
           Row{"{\"json\": true}\n<html>", "bad.pgn:2: expected a move, found '<'"},
       }) {
    const auto games = read_pgn(row.pgn, "bad.pgn");
    ASSERT_FALSE(games) << row.pgn;
    EXPECT_EQ(games.error().message.rfind(row.dump, 0), 0u)
        << row.pgn << " gave " << games.error().message;
  }
}

TEST(ReadPgn, DamagedTextIsReadOrRefused) {
  const std::string good =
      "[Event \"a \\\" b\"]\n[FEN \"4k3/8/8/8/8/8/4P3/4K3 w - - 0 1\"]\n\n1. e4 {x} $3 (1. e3! Kd7 "
      "(1... Kf7)) 1... Kd7 ; y\n2. e5 1/2-1/2\n%z\n1. e4 e5 *\n";
  const std::string bytes = "[]{}();$%\"\\*/-.0128KxeO \n\r\t\xC3";
  std::mt19937 engine(20240607);
  std::size_t read = 0, refused = 0;
  for (int round = 0; round < 20'000; ++round) {
    std::string bad = good;
    for (std::size_t edits = 1 + engine() % 3; edits > 0; --edits) {
      const std::size_t at = engine() % bad.size();
      if (engine() % 2 == 0)
        bad.erase(at, 1 + engine() % 4);
      else
        bad.insert(at, 1, bytes[engine() % bytes.size()]);
    }
    read_pgn(bad, "bad") ? ++read : ++refused;
  }
  EXPECT_GT(read, 0u);
  EXPECT_GT(refused, 0u);
}

TEST(ReadPgn, DeepNestsKeepOffTheStack) {
  std::string pgn = "1. e4 ";
  for (int i = 0; i < 50'000; ++i) pgn += i % 2 == 0 ? "(d4 " : "(e4 ";
  pgn += std::string(50'000, ')');
  const auto games = read_pgn(pgn, "deep");
  ASSERT_TRUE(games) << games.error().message;
  EXPECT_EQ((*games)[0].nodes.size(), 50'002u);
}

}  // namespace
}  // namespace plyscribe::publish
