#include "publish/place.h"

#include <gtest/gtest.h>

#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using tests::Sketch;

TEST(Place, IsNamedByTheMoveThatLedThere) {
  Sketch s("e4 e5");
  const auto nf3 = s.play(0, "Nf3", 1);
  const auto nc6 = s.play(nf3, "Nc6", 2);
  const lesson::Lesson lesson = s.lesson();
  EXPECT_EQ(numbered_move(lesson, 0), "the start");
  EXPECT_EQ(numbered_move(lesson, nf3), "2. Nf3");
  EXPECT_EQ(place(lesson, 0), "at the start");
  EXPECT_EQ(place(lesson, nc6), "after 2... Nc6");
}

TEST(Place, TheLineToItBeginsAtTheFirstMoveThatIsKnown) {
  Sketch s("e4 e5 Nf3");
  const auto nc6 = s.play(0, "Nc6", 1);
  const auto bc4 = s.play(nc6, "Bc4", 2);
  EXPECT_EQ(line_to(s.lesson(), 0), "1. e4 e5 2. Nf3");
  EXPECT_EQ(line_to(s.lesson(), bc4), "1. e4 e5 2. Nf3 Nc6 3. Bc4");

  Sketch ending("8/8/4k3/8/3PK3/8/8/8 b - - 0 40");
  const auto kd6 = ending.play(0, "Kd6", 1);
  EXPECT_EQ(line_to(ending.lesson(), 0), "");
  EXPECT_EQ(line_to(ending.lesson(), ending.play(kd6, "d5", 2)), "40... Kd6 41. d5");
}

TEST(Place, TwoLinesPartAtTheirMeetingPoint) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1), e5 = s.play(e4, "e5", 2), nf3 = s.play(e5, "Nf3", 3);
  const auto nc6 = s.play(nf3, "Nc6", 4), f4 = s.play(e5, "f4", 5);
  const lesson::Lesson lesson = s.lesson();
  EXPECT_EQ(meeting_point(lesson, nc6, f4), e5);
  EXPECT_EQ(meeting_point(lesson, e4, nc6), e4);
  EXPECT_EQ(meeting_point(lesson, 0, f4), 0);
  EXPECT_EQ(line_between(lesson, e5, nc6), "2. Nf3 Nc6");
  EXPECT_EQ(line_between(lesson, e4, f4), "1... e5 2. f4");
  EXPECT_EQ(line_between(lesson, f4, f4), "");
}

TEST(Place, ChoicesAreTheMovesThatHaveASibling) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1);
  const auto e5 = s.play(e4, "e5", 2);
  s.play(e4, "c5", 3);
  const auto nf3 = s.play(e5, "Nf3", 4);
  const auto nc6 = s.play(nf3, "Nc6", 5);
  const lesson::Lesson lesson = s.lesson();
  EXPECT_EQ(choices_to(lesson, 0), "the start");
  EXPECT_EQ(choices_to(lesson, e5), "1... e5");
  EXPECT_EQ(choices_to(lesson, nc6), "1... e5, 2... Nc6");
}

}  // namespace
}  // namespace plyscribe::publish
