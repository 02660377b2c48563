#include "lexicon/book.h"

#include <gtest/gtest.h>

#include <string>

#include "board/notation.h"
#include "lexicon/openings.h"

namespace plyscribe::lexicon {
namespace {

using board::Position;

std::string dump(const Position& p, std::size_t most) {
  std::string out;
  for (const BookMove& m : book_moves(p)) {
    if (most-- == 0) break;
    if (!out.empty()) out += ' ';
    out += board::to_uci(m.move) + ':' + std::to_string(m.count);
  }
  return out;
}

// Rows copied from the source table, book.tsv.
TEST(Book, KnowsTheInitialPosition) {
  EXPECT_EQ(dump(Position::initial(), 99),
            "e2e4:12135 d2d4:11257 g1f3:3745 c2c4:3294 g2g3:243 b2b3:38 f2f4:35 b1c3:16 b2b4:16 "
            "e2e3:7 d2d3:5 g2g4:4 a2a3:2");
}

TEST(Book, KnowsPositionsOfBothSidesAndCastlingRights) {
  struct Row {
    std::string_view fen, moves;
  };
  const Row rows[] = {
      {"1B3b2/7p/3p2p1/1P1k1p2/8/7P/5PP1/5K2 w - - 0 1", "b8a7:3"},
      {"1B3rk1/2n2ppp/3p1b2/1p1bp3/1P2P3/5N1P/5PP1/R3R1K1 b - - 0 1", "f8b8:1"},
      {"1B3rk1/2n2ppp/3p1b2/1p1bp3/1P2P3/5N1P/5PP1/R3R1K1 w - - 0 1", ""},
  };
  for (const Row& row : rows) {
    const auto p = board::parse_fen(row.fen);
    ASSERT_TRUE(p) << row.fen;
    EXPECT_EQ(dump(*p, 9), row.moves) << row.fen;
  }
}

TEST(Book, CastlesInTheKingsOwnStep) {
  const auto line = board::parse_line(Position::initial(), "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6");
  ASSERT_TRUE(line) << line.error().message;
  Position p = Position::initial();
  for (const board::Move m : *line) p = p.after(m);
  const std::vector<BookMove> moves = book_moves(p);
  ASSERT_FALSE(moves.empty());
  EXPECT_EQ(board::to_uci(moves[0].move), "e1g1");
  EXPECT_EQ(moves[0].move.kind(), board::Move::Kind::kCastling);
}

// Every path through the book's better known moves: counts fall, moves are legal.
TEST(Book, WalksDownItsOwnLines) {
  std::size_t positions = 0;
  const auto walk = [&positions](const auto& self, const Position& p, int depth) -> void {
    const std::vector<BookMove> moves = book_moves(p);
    if (moves.empty() || depth == 0) return;
    ++positions;
    for (std::size_t i = 0; i < moves.size(); ++i) {
      EXPECT_TRUE(p.is_legal(moves[i].move));
      EXPECT_GE(moves[i == 0 ? 0 : i - 1].count, moves[i].count);
      if (i < 3) self(self, p.after(moves[i].move), depth - 1);
    }
  };
  walk(walk, Position::initial(), 7);
  EXPECT_GT(positions, 800u);
}

TEST(Openings, AreAllLegalLinesWithCodeAndName) {
  EXPECT_EQ(openings().size(), 2013u);
  for (const Opening& o : openings()) {
    const auto line = board::parse_line(Position::initial(), o.moves);
    ASSERT_TRUE(line) << o.name << ": " << line.error().message;
    EXPECT_FALSE(line->empty()) << o.name;
    EXPECT_EQ(o.eco.size(), 3u) << o.name;
    EXPECT_FALSE(o.name.empty()) << o.moves;
  }
}

}  // namespace
}  // namespace plyscribe::lexicon
