#include "publish/slips.h"

#include <gtest/gtest.h>

#include <sstream>

#include "publish/text.h"
#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using lesson::Advice;
using lesson::Lesson;
using tests::Sketch;

std::string shown(const std::vector<Slip>& slips) {
  std::string text;
  for (const Slip& slip : slips) text += clock_text(slip.t) + " " + slip.text + "\n";
  return text;
}

lesson::Node& at(Lesson& lesson, std::int32_t id) {
  return lesson.nodes[static_cast<std::size_t>(id)];
}

lesson::Span words(double t, const char* heard) { return {t, t + 1, 0, 0, heard}; }

// 1. e4 e5 2. Nf3 Nc6 (2... d6)
struct Fixture {
  Sketch s;
  std::int32_t e4 = s.play(0, "e4", 1), e5 = s.play(e4, "e5", 2), nf3 = s.play(e5, "Nf3", 3),
               nc6 = s.play(nf3, "Nc6", 4), d6 = s.play(nf3, "d6", 5);
};

TEST(Slips, OfACleanLessonAreNone) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1);
  Lesson lesson = s.lesson();
  at(lesson, e4).judgements = {{1, words(2, "a fine move")}};
  EXPECT_EQ(write_slips(lesson), "Lesson: to mend before it goes out\n\nNothing.\n");
}

TEST(TwoNames, AreFoundInOneLineAndAcrossTranspositions) {
  Fixture f;
  f.s.say(f.nf3, 30, "knight f6", {.act = resolve::Act::kRevisit});
  EXPECT_EQ(shown(two_names(f.s.lesson())),
            "0:30 2. Nf3 is \"knight f6\" here and \"Nf3\" at 0:03\n");

  Sketch s;
  const auto d4 = s.play(0, "d4", 1), d5 = s.play(d4, "d5", 2), c4 = s.play(d5, "c4", 3),
             e6 = s.play(c4, "e6", 4), c4b = s.play(0, "c4", 5), e6b = s.play(c4b, "e6", 6),
             d4b = s.play(e6b, "d4", 7), d5b = s.play(d4b, "d5", 8);
  s.say(s.node(e6, "Nc3"), 10, "knight c3");
  s.say(s.node(d5b, "Nc3"), 20, "bishop c3");
  EXPECT_EQ(shown(two_names(s.lesson())),
            "0:20 3. Nc3 is \"bishop c3\" here and \"knight c3\" at 0:10\n");
}

TEST(TwoNames, ShorthandIsNoOtherName) {
  Fixture f;
  f.s.say(f.nf3, 30, "the knight", {.act = resolve::Act::kRevisit});
  f.s.say(f.e5, 31, "he answers", {.act = resolve::Act::kRevisit});
  EXPECT_EQ(shown(two_names(f.s.lesson())), "");
}

TEST(Contradictions, OfAdviceAndOfJudgement) {
  Fixture f;
  Lesson lesson = f.s.lesson();
  lesson.side = board::Color::kBlack;
  EXPECT_EQ(shown(contradictions(lesson)), "");

  at(lesson, f.nc6).counsels = {{Advice::kRecommended, words(7, "what I play")},
                                {Advice::kAvoided, words(90, "don't play it")}};
  at(lesson, f.d6).counsels = {{Advice::kRecommended, words(10, "play this")}};
  at(lesson, f.d6).judgements = {{4, words(80, "a blunder")}};
  EXPECT_EQ(shown(contradictions(lesson)),
            "1:20 2... d6: recommended, \"play this\" (0:10), but blunder, \"a blunder\" (1:20)\n"
            "1:30 2... Nc6: recommended, \"what I play\" (0:07), but to be avoided, \"don't play "
            "it\" (1:30)\n");
}

TEST(Contradictions, OfHowAPositionStands) {
  Fixture f;
  Lesson lesson = f.s.lesson();
  at(lesson, f.nc6).judgements = {{14, words(7, "an edge")}, {16, words(8, "clearly better")}};
  EXPECT_EQ(shown(contradictions(lesson)), "");
  at(lesson, f.nc6).judgements.push_back({36, words(9, "initiative")});
  EXPECT_EQ(shown(contradictions(lesson)), "");
  at(lesson, f.nc6).judgements.push_back({11, words(60, "equal")});
  EXPECT_EQ(shown(contradictions(lesson)),
            "1:00 2... Nc6: White is slightly better, \"an edge\" (0:07), but equal, quiet, "
            "\"equal\" (1:00)\n");
}

TEST(HeardOtherwise, ListsMendedAndMisnamedMovesThatAreSure) {
  Sketch s;
  const auto e4 = s.node(0, "e4");
  s.say(e4, 1, "before", {.confidence = 0.9, .as_heard = false});
  const auto e5 = s.play(e4, "e5", 3);
  s.say(s.node(e5, "Nf3"), 5, "knight", {.confidence = 0.4});
  s.say(e5, 9, "d5", {.act = resolve::Act::kRevisit});
  EXPECT_EQ(shown(heard_otherwise(s.lesson())),
            "0:01 \"before\" for 1. e4\n0:09 \"d5\" for 1... e5\n");
  EXPECT_EQ(shown(not_certain(s.lesson())), "0:05 2. Nf3 from \"knight\"\n");
}

TEST(NotCertain, MovesThatNobodySaidAreListedToo) {
  Sketch s;
  const auto e4 = s.node(0, "e4");
  s.say(s.node(e4, "e5"), 5, "he five", {.confidence = 0.4});
  EXPECT_EQ(shown(not_certain(s.lesson())),
            "0:05 1. e4, not said\n0:05 1... e5 from \"he five\"\n");
}

TEST(Undecided, NamesTheMovesThatWereShown) {
  Fixture f;
  Lesson lesson = f.s.lesson();
  EXPECT_EQ(shown(undecided(lesson)), "");  // White always has one move only
  lesson.side = board::Color::kBlack;
  EXPECT_EQ(shown(undecided(lesson)), "0:05 after 2. Nf3: Nc6, d6\n");
  at(lesson, f.d6).advice = Advice::kRecommended;
  EXPECT_EQ(shown(undecided(lesson)), "");
}

TEST(WithoutVerdict, LooksAtALineSinceItBranchedOff) {
  Fixture f;
  Lesson lesson = f.s.lesson();
  EXPECT_EQ(shown(without_verdict(lesson)), "0:04 2... Nc6\n0:05 2... d6\n");
  at(lesson, f.d6).judgements = {{11, words(6, "equal")}};
  at(lesson, f.e5).judgements = {{11, words(6, "equal")}};  // not these lines' own
  EXPECT_EQ(shown(without_verdict(lesson)), "0:04 2... Nc6\n");
}

TEST(WithoutVerdict, MateIsOne) {
  Sketch s("f3 e5 g4");
  s.play(0, "Qh4", 1);
  EXPECT_EQ(shown(without_verdict(s.lesson())), "");
}

TEST(Slips, EverySectionHasItsHeadingAndFitsTheColumns) {
  Fixture f;
  f.s.say(-1, 20, "rook e1", {.act = resolve::Act::kLoose, .text = "no rook can go there"});
  f.s.say(-1, 25, "f7", {.act = resolve::Act::kLoose, .text = "nothing there"});
  f.s.say(-1, 26, "queen on d8", {.act = resolve::Act::kLoose, .text = "nothing there"});
  Lesson lesson = f.s.lesson();
  lesson.title = std::string(100, 'x') + " and more";
  lesson.corrections = {words(40, "bishop c5 sorry bishop d6")};
  const std::string text = write_slips(lesson);
  EXPECT_NE(text.find("\nMoves that no reading makes legal (1)\n     0:20  \"rook e1\": no rook "
                      "can go there\n"),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("\nSelf-corrections (1)\n     0:40  \"bishop c5 sorry bishop d6\"\n"),
            std::string::npos)
      << text;
  EXPECT_NE(text.find("\nSquares named without a move (2)\n     0:25 f7; 0:26 queen on d8\n"),
            std::string::npos)
      << text;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(columns(line), 79u) << line;
}

}  // namespace
}  // namespace plyscribe::publish
