#include "publish/decisions.h"

#include <gtest/gtest.h>

#include "publish/place.h"
#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using lesson::Advice;
using tests::Sketch;

// "after 1. e4 advised: e5, c5 | ..." for Black.
std::string shown(lesson::Lesson lesson, board::Color side = board::Color::kBlack) {
  lesson.side = side;
  constexpr const char* kVerdicts[] = {"advised", "shown", "aside", "open", "conflict"};
  std::string text;
  for (const Decision& d : decisions(lesson)) {
    if (!text.empty()) text += " | ";
    text += place(lesson, d.places.front()) + " ";
    text += kVerdicts[static_cast<int>(d.verdict)];
    text += ":";
    for (const Answer& a : d.answers) {
      text += " " + lesson.nodes[static_cast<std::size_t>(a.nodes.front())].san;
    }
  }
  return text;
}

TEST(Decisions, AreTheLessonsSidesOnly) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1);
  s.play(s.play(e4, "e5", 2), "Nf3", 3);
  EXPECT_EQ(shown(s.lesson()), "after 1. e4 shown: e5");
  EXPECT_EQ(shown(s.lesson(), board::Color::kWhite),
            "at the start shown: e4 | after 1... e5 shown: Nf3");
}

TEST(Decisions, SeveralMovesWithoutAdviceStayOpen) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1);
  const auto e5 = s.play(e4, "e5", 2), c5 = s.play(e4, "c5", 3);
  lesson::Lesson lesson = s.lesson();
  EXPECT_EQ(shown(lesson), "after 1. e4 open: e5 c5");
  lesson.nodes[static_cast<std::size_t>(c5)].advice = Advice::kRecommended;
  EXPECT_EQ(shown(lesson), "after 1. e4 advised: c5 e5");
  lesson.nodes[static_cast<std::size_t>(c5)].advice = Advice::kAvoided;
  EXPECT_EQ(shown(lesson), "after 1. e4 shown: e5 c5");
  lesson.nodes[static_cast<std::size_t>(e5)].advice = Advice::kForCompleteness;
  EXPECT_EQ(shown(lesson), "after 1. e4 open: e5 c5");
}

TEST(Decisions, BelowAMoveThatTheLessonDoesNotTakeAMoveShownIsAside) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1);
  const auto e5 = s.play(e4, "e5", 2), f6 = s.play(e4, "f6", 3);
  const auto d4 = s.play(f6, "d4", 4);
  const auto d5 = s.play(d4, "d5", 5);
  const auto nf3 = s.play(e5, "Nf3", 6);
  s.play(nf3, "Nc6", 7);
  lesson::Lesson lesson = s.lesson();
  lesson.nodes[static_cast<std::size_t>(e5)].advice = Advice::kRecommended;
  EXPECT_EQ(shown(lesson),
            "after 1. e4 advised: e5 f6 | after 2. d4 aside: d5 | after 2. Nf3 shown: Nc6");
  lesson.nodes[static_cast<std::size_t>(d5)].advice = Advice::kRecommended;
  EXPECT_EQ(shown(lesson),
            "after 1. e4 advised: e5 f6 | after 2. d4 advised: d5 | after 2. Nf3 shown: Nc6");
}

struct Transposition {
  Sketch s;
  std::int32_t d4 = s.play(0, "d4", 1), d5 = s.play(d4, "d5", 2), c4 = s.play(d5, "c4", 3),
               e6 = s.play(c4, "e6", 4), c4b = s.play(0, "c4", 5), e6b = s.play(c4b, "e6", 6),
               d4b = s.play(e6b, "d4", 7), d5b = s.play(d4b, "d5", 8);
  std::int32_t nc3 = s.play(e6, "Nc3", 9), nc3b = s.play(d5b, "Nc3", 10),
               nf3 = s.play(d5b, "Nf3", 11);
};

TEST(Decisions, APositionReachedTwiceIsOne) {
  Transposition t;
  lesson::Lesson lesson = t.s.lesson();
  const auto all = decisions(lesson);
  const auto it = std::find_if(all.begin(), all.end(),
                               [&](const Decision& d) { return d.places.front() == t.e6; });
  ASSERT_NE(it, all.end());
  EXPECT_EQ(it->places, (std::vector<lesson::NodeId>{t.e6, t.d5b}));
  ASSERT_EQ(it->answers.size(), 2u);
  EXPECT_EQ(it->answers[0].nodes, (std::vector<lesson::NodeId>{t.nc3, t.nc3b}));
  EXPECT_EQ(it->answers[1].nodes, (std::vector<lesson::NodeId>{t.nf3}));
}

TEST(Decisions, AdviceOfTwoLinesThatMeetMayConflict) {
  Transposition t;
  lesson::Lesson lesson = t.s.lesson();
  lesson.nodes[static_cast<std::size_t>(t.nc3)].advice = Advice::kRecommended;
  lesson.nodes[static_cast<std::size_t>(t.nc3b)].advice = Advice::kAvoided;
  const auto all = decisions(lesson);
  const auto it = std::find_if(all.begin(), all.end(),
                               [&](const Decision& d) { return d.places.front() == t.e6; });
  ASSERT_NE(it, all.end());
  EXPECT_EQ(it->verdict, Verdict::kConflict);
}

}  // namespace
}  // namespace plyscribe::publish
