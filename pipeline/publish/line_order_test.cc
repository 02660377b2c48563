#include "publish/line_order.h"

#include <gtest/gtest.h>

#include <string>

#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using lesson::Advice;
using tests::Sketch;

// The walk in one line: moves in SAN, variations in brackets.
std::string dump(const lesson::Lesson& lesson) {
  std::string out;
  for (const Step& step : walk(lesson)) {
    if (step.kind == Step::Kind::kOpen) out += "( ";
    if (step.kind == Step::Kind::kClose) out += ") ";
    if (step.kind == Step::Kind::kMove) {
      out += lesson.nodes[static_cast<std::size_t>(step.node)].san + " ";
    }
  }
  if (!out.empty()) out.pop_back();
  return out;
}

TEST(Walk, PutsAVariationBehindTheMoveItReplaces) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1);
  const auto e5 = s.play(e4, "e5", 2);
  s.play(e5, "Nf3", 3);
  const auto c5 = s.play(e4, "c5", 90);
  s.play(c5, "Nc3", 95);
  const auto d4 = s.play(0, "d4", 97);
  s.play(d4, "d5", 98);
  s.play(d4, "f5", 99);
  EXPECT_EQ(dump(s.lesson()), "e4 ( d4 d5 ( f5 ) ) e5 ( c5 Nc3 ) Nf3");
}

TEST(Walk, OfALessonWithoutMovesIsEmpty) { EXPECT_EQ(dump(Sketch().lesson()), ""); }

TEST(MainLine, IsWhatIsTalkedAboutLongest) {
  Sketch s;
  s.play(0, "e4", 10);
  s.play(0, "d4", 12);  // until 62
  s.play(0, "c4", 62);  // until 100
  EXPECT_EQ(dump(s.lesson()), "d4 ( e4 ) ( c4 )");
}

TEST(MainLine, CountsTheWholeSubtreeWithReturnsAndIdeas) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 10);
  s.play(0, "d4", 20);                                              // 30 s
  s.play(e4, "e5", 50);                                             // 10 s
  s.say(e4, 60, "e4", {.act = resolve::Act::kRevisit});             // 10 s
  s.say(e4, 70, "d5", {.act = resolve::Act::kIdea, .text = "d5"});  // 29 s
  s.play(0, "c4", 99);
  const auto lesson = s.lesson();
  EXPECT_EQ(dump(lesson), "e4 ( d4 ) ( c4 ) e5");
  const auto seconds = talk_seconds(lesson);
  EXPECT_EQ(seconds[static_cast<std::size_t>(e4)], 10 + 10 + 10 + 29);
  EXPECT_EQ(seconds[0], 90);
}

TEST(MainLine, IsWhatTheSpeakerRecommends) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 10);
  const auto d4 = s.play(0, "d4", 20);
  s.play(0, "c4", 99);
  auto lesson = s.lesson();
  lesson.nodes[static_cast<std::size_t>(e4)].advice = Advice::kRecommended;
  EXPECT_EQ(dump(lesson), "e4 ( d4 ) ( c4 )");
  lesson.nodes[static_cast<std::size_t>(e4)].advice = Advice::kNone;
  lesson.nodes[static_cast<std::size_t>(d4)].advice = Advice::kAvoided;
  EXPECT_EQ(dump(lesson), "e4 ( d4 ) ( c4 )");
}

TEST(MainLine, OfEqualsIsTheOneNamedFirst) {
  Sketch s;
  s.play(0, "e4", 10);
  s.play(0, "d4", 20);
  s.transcript.duration = 30;
  EXPECT_EQ(dump(s.lesson()), "e4 ( d4 )");
}

TEST(Walk, OfAVeryDeepNestKeepsOffTheStack) {
  lesson::Lesson lesson;
  lesson.nodes.resize(1);
  constexpr int kDepth = 20'000;
  for (int i = 0; i < kDepth; ++i) {  // each node: a main child and a side child that goes on
    lesson::Node main, side;
    main.parent = side.parent = i == 0 ? 0 : 2 * i;
    main.advice = Advice::kRecommended;
    lesson.nodes.push_back(main);
    lesson.nodes.push_back(side);
  }
  EXPECT_EQ(walk(lesson).size(), 4u * kDepth);
}

}  // namespace
}  // namespace plyscribe::publish
