// Rows: what is given or said, and the start that follows.
#include "resolve/start.h"

#include <gtest/gtest.h>

#include <string>

#include "board/notation.h"
#include "hearing/lattice.h"
#include "transcript/transcript.h"

namespace plyscribe::resolve {
namespace {

std::string placement(const board::Position& p) {
  const std::string fen = board::to_fen(p);
  return fen.substr(0, fen.find(' ', fen.find(' ') + 1));  // men and side to move
}

hearing::Lattice heard(const std::string& words) {
  const auto t = transcript::read_transcript("[0:01] " + words + "\n", "lesson.txt");
  EXPECT_TRUE(static_cast<bool>(t)) << words;
  return hearing::build_lattice(*t);
}

TEST(GivenStart, Accepts) {
  const struct {
    const char* text;
    const char* start;
  } rows[] = {
      {"e4 e5 Nf3", "rnbqkbnr/pppp1ppp/8/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R b"},
      {"1. d4 Nf6 2. c4", "rnbqkb1r/pppppppp/5n2/8/2PP4/8/PP2PPPP/RNBQKBNR b"},
      {"8/5k2/8/8/8/4K3/4P3/8 b - - 0 1", "8/5k2/8/8/8/4K3/4P3/8 b"},
      {"Vienna Game", "rnbqkbnr/pppp1ppp/8/4p3/4P3/2N5/PPPP1PPP/R1BQKBNR b"},
      {"Grünfeld Exchange", "rnbqkb1r/ppp1pp1p/6p1/3n4/3P4/2N5/PP2PPPP/R1BQKBNR w"},
  };
  for (const auto& row : rows) {
    const auto start = given_start(row.text);
    ASSERT_TRUE(static_cast<bool>(start)) << row.text;
    EXPECT_EQ(placement(start->start.position), row.start) << row.text;
  }
}

TEST(GivenStart, Rejects) {
  for (const char* text : {"Xylophone Zugzwang", "e4 e5 Ke3", "8/8/8/8/8/8/8/8 w - - 0 1",
                           "k7/8/8/8/8/8/8 w - - 0 1"}) {
    EXPECT_FALSE(static_cast<bool>(given_start(text))) << text;
  }
}

TEST(LessonSide, IsSaid) {
  const struct {
    const char* words;
    const char* title;
    std::optional<board::Color> side;
  } rows[] = {
      {"we are black today and he opens with e4", "", board::Color::kBlack},
      {"hello and welcome", "The Catalan for White", board::Color::kWhite},
      {"a repertoire from the black side", "", board::Color::kBlack},
      {"hello and welcome", "", std::nullopt},
  };
  for (const auto& row : rows) EXPECT_EQ(lesson_side(heard(row.words), row.title), row.side) << row.words;
}

TEST(ToldPosition, IsTheFirstOption) {
  const struct {
    const char* words;
    const char* start;
  } rows[] = {
      {"White has the king on e3 and a pawn on e2. Black has the king on f7 and a pawn on a6. "
       "White to move.",
       "8/5k2/p7/8/8/4K3/4P3/8 w"},
      {"White: king on g1, rook on d1, pawns on f2, g2 and h2. Black: king g8, rook on a8, and the "
       "three in front of the king. Black to move.",
       "r5k1/5ppp/8/8/8/8/5PPP/3R2K1 b"},
      {"White, king on b7, knight d5, and one pawn, it's on c6. Black, king on e6 and the knight on "
       "f2. Both knights go for the pawn. White to move.",
       "8/1K6/2P1k3/3N4/8/8/5n2/8 w"},
      {"The white king on f3, a rook on a8, a pawn on b6. Black has a king on g7, a rook on b1, and "
       "one pawn, on h6. White to move. You will dream of these six, I see six of you yawn.",
       "R7/6k1/1P5p/8/8/5K2/8/1r6 w"},
      {"White's king is on d4, and he has a pawn on b5. The black king stands on d6, looks straight "
       "into the other one's eyes all evening, and Black has just one pawn, on g5.",
       "8/8/3k4/1P4p1/3K4/8/8/8 w"},
  };
  for (const auto& row : rows) {
    const auto options = told_positions(heard(row.words));
    ASSERT_FALSE(options.empty()) << row.words;
    EXPECT_EQ(placement(options[0].start.position), row.start) << row.words;
  }
  // The lesson's moves begin once it is said whose turn it is.
  const auto late = heard(rows[2].words);
  EXPECT_EQ(told_positions(late)[0].token, late.tokens.size());
  EXPECT_TRUE(told_positions(heard("white plays knight f3 and black answers d5")).empty());
}

TEST(InferStarts, NamedOpeningsAndMovesSaid) {
  const struct {
    const char* words;
    const char* start;
  } rows[] = {
      {"today we look at the Vienna Game again. Black usually plays knight f6, then bishop c4.",
       "rnbqkbnr/pppp1ppp/8/4p3/4P3/2N5/PPPP1PPP/R1BQKBNR b"},
      {"the Sicilian Nidorf with bishop g5, we have just played a6. So e6, f4, queen b6.",
       "rnbqkb1r/1p2pppp/p2p1n2/6B1/3NP3/2N5/PPP2PPP/R2QKB1R b"},
      {"hello everybody. d4 d5 c4 and so on", "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w"},
  };
  for (const auto& row : rows) {
    const auto options = infer_starts(heard(row.words), "");
    ASSERT_FALSE(options.empty());
    EXPECT_EQ(placement(options[0].start.position), row.start) << row.words;
  }
}

}  // namespace
}  // namespace plyscribe::resolve
