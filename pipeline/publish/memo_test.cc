#include "publish/memo.h"

#include <gtest/gtest.h>

#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using lesson::Advice;
using tests::Sketch;

TEST(Rules, SayWhatToPlayAndWhatNot) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1);
  const auto e5 = s.play(e4, "e5", 2), f6 = s.play(e4, "f6", 3);
  s.play(s.play(e5, "Nf3", 4), "Nc6", 5);
  lesson::Lesson lesson = s.lesson();
  lesson.side = board::Color::kBlack;
  EXPECT_TRUE(rules(lesson).empty());

  lesson::Node& good = lesson.nodes[static_cast<std::size_t>(e5)];
  good.advice = Advice::kRecommended;
  good.counsels = {{Advice::kRecommended, {9, 10, 0, 0, "what I play"}}};
  lesson.nodes[static_cast<std::size_t>(f6)].advice = Advice::kAvoided;
  const auto all = rules(lesson);
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].at, e4);
  EXPECT_EQ(all[0].play, (std::vector<lesson::NodeId>{e5}));
  EXPECT_EQ(all[0].avoid, (std::vector<lesson::NodeId>{f6}));
  EXPECT_EQ(all[0].words, "what I play");
  EXPECT_EQ(all[0].t, 9);
}

TEST(Rules, AnOnlyMoveIsOne) {
  Sketch s("e4 e5 Nf3 Nc6 Bc4 Nf6 Ng5");
  const auto d5 = s.play(0, "d5", 2);
  lesson::Lesson lesson = s.lesson();
  lesson.side = board::Color::kBlack;
  lesson.nodes[static_cast<std::size_t>(d5)].judgements = {{8, {3, 4, 0, 0, "the only move"}}};
  const auto all = rules(lesson);
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].words, "the only move");
}

TEST(Meetings, AreWhereLinesJoinNotWhatFollows) {
  Sketch s;
  const auto d4 = s.play(0, "d4", 1), d5 = s.play(d4, "d5", 2), c4 = s.play(d5, "c4", 3),
             e6 = s.play(c4, "e6", 4);
  s.play(e6, "Nc3", 5);
  const auto c4b = s.play(0, "c4", 6), e6b = s.play(c4b, "e6", 7), d4b = s.play(e6b, "d4", 8),
             d5b = s.play(d4b, "d5", 9);
  s.play(d5b, "Nc3", 10);
  const auto all = meetings(s.lesson());
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].first, e6);
  EXPECT_EQ(all[0].second, d5b);
}

TEST(Meetings, APositionThatComesBackInOneLineIsOne) {
  Sketch s;
  const auto a = s.play(0, "Nf3", 1), b = s.play(a, "Nf6", 2), c = s.play(b, "Ng1", 3),
             d = s.play(c, "Ng8", 4);
  const auto all = meetings(s.lesson());
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].first, 0);
  EXPECT_EQ(all[0].second, d);
}

}  // namespace
}  // namespace plyscribe::publish
