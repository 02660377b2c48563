// What is heard in words of like sound. Each row: how it was written down, the game before it, and
// the move that some reading of all of it must fit.
#include "hearing/ear.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "board/notation.h"
#include "hearing/lattice.h"
#include "hearing/units.h"
#include "transcript/transcript.h"

namespace plyscribe::hearing {
namespace {

// Squares written in numbers enough for dictation, or none at all for a word recogniser.
constexpr char kDictation[] = " Then Nf3, Nc6, d4, d5.";

Lattice lattice_of(const std::string& words, bool written) {
  const std::string text = "[0:01] " + words + (written ? "." + std::string(kDictation) : "");
  const auto transcript = transcript::read_transcript(text, "lesson.txt");
  EXPECT_TRUE(transcript);
  return build_lattice(*transcript);
}

std::uint32_t words_in(const std::string& text) {
  return static_cast<std::uint32_t>(1 + std::count(text.begin(), text.end(), ' '));
}

struct Row {
  const char* heard;
  const char* line;  // moves before
  const char* move;
};

// The gain of the best reading over the words that fits the move; -1e9 if there is none.
float gain(const Row& row, bool written) {
  const Lattice lattice = lattice_of(row.heard, written);
  board::Position p = board::Position::initial();
  const auto line = board::parse_line(p, row.line);
  EXPECT_TRUE(line) << row.line;
  if (!line) return -kNever;
  for (const board::Move m : *line) p = p.after(m);
  const auto move = board::parse_line(p, row.move);
  EXPECT_TRUE(move) << row.move;
  if (!move || move->empty()) return -kNever;
  const board::Move m = move->front();
  std::uint32_t last = 0;  // tokens of the words
  for (const Token& t : lattice.tokens) last += t.word < words_in(row.heard) ? 1 : 0;
  float best = -kNever;
  for (const Reading& r : lattice.readings) {
    if (r.first != 0 || r.last != last) continue;
    const Match fit = match(r, p, m, p.gives_check(m));
    if (fit.ok()) best = std::max(best, r.background - fit.cost);
  }
  return best;
}

TEST(Ear, WordsOfLikeSoundFitTheMove) {
  const Row rows[] = {
      {"night f three", "", "Nf3"},
      {"nine at three", "", "Nf3"},
      {"ninety four", "e4 e5 Nf3 Nf6 d4", "Nxe4"},
      {"before", "", "b4"},
      {"age four", "", "h4"},
      {"see five", "e4", "c5"},
      {"they should take c five", "d4 d5 c4 e6 Nc3 c5 dxc5", "Bxc5"},
      {"queen to lead to", "e4 e5", "Qe2"},
      {"bishop to see five", "e4 e5 h3", "Bc5"},
      {"might do it for", "e4 e5 Nf3 Nf6 Nc3 Nc6 a3", "Nxe4"},
      {"the five", "e4", "d5"},
  };
  for (const Row& row : rows) {
    EXPECT_GT(gain(row, false), 0.0F) << row.heard;
  }
}

TEST(Ear, DictationIsHeardWhereAMoveIsDue) {
  EXPECT_GT(gain({"bishop before", "e4 e6 d4", "Bb4"}, true), -kNever / 2);
  EXPECT_GT(gain({"night f3", "", "Nf3"}, true), -kNever / 2);
  EXPECT_GT(gain({"rock e1", "e4 e5 Nf3 Nc6 Bc4 Bc5 O-O d6", "Re1"}, true), -kNever / 2);
}

TEST(Ear, TalkIsNotStrong) {
  for (const char* talk : {"before we go on", "we have seen this before", "what do we see here",
                           "that is for you to decide", "he ate the whole thing"}) {
    const Lattice lattice = lattice_of(talk, true);
    for (const Reading& r : lattice.readings) {
      EXPECT_FALSE(r.strong && r.first < words_in(talk)) << talk << " " << r.first << "-" << r.last;
    }
  }
}

TEST(Ear, TensAreADigitAndALetter) {
  std::vector<Token> tokens(2);
  tokens[0].norm = tokens[0].raw = "sixty";
  tokens[1].norm = tokens[1].raw = "five";
  split_tens(tokens);
  ASSERT_EQ(tokens.size(), 3U);
  EXPECT_EQ(tokens[0].norm, "six");
  EXPECT_EQ(tokens[1].norm, "t");
}

TEST(Ear, NodesStandOnPhones) {
  std::vector<Token> tokens(2);
  tokens[0].norm = tokens[0].raw = "before";
  tokens[1].norm = tokens[1].raw = "nf3";
  UnitGraph g;
  add_units_by_ear(tokens, Script::kSpokenWords, g);
  EXPECT_EQ(g.node_of_token, (std::vector<std::uint32_t>{0, 5, 6}));
  EXPECT_EQ(g.token_at_node, (std::vector<std::int32_t>{0, -1, -1, -1, -1, 1, 2}));
  EXPECT_EQ(g.arcs.size(), 7U);
}

TEST(Ear, ChessWordsAreOrdinaryInALesson) {
  std::vector<Token> tokens(2);
  tokens[0].norm = tokens[0].raw = "queen";
  tokens[1].norm = tokens[1].raw = "the";
  const auto costs = token_backgrounds(tokens);
  EXPECT_LE(costs[0], 3.0F);
  EXPECT_LE(costs[1], 4.0F);
}

}  // namespace
}  // namespace plyscribe::hearing
