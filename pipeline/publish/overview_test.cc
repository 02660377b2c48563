#include "publish/overview.h"

#include <gtest/gtest.h>

#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using tests::Sketch;

std::string shown(const lesson::Lesson& lesson, const Overview& overview) {
  std::string text;
  for (const Branch& branch : overview.branches) {
    text += std::to_string(branch.depth);
    for (const auto id : branch.moves) text += " " + lesson.nodes[static_cast<std::size_t>(id)].san;
    text += "; ";
  }
  return text + std::to_string(overview.left_out) + " left out";
}

// 1. e4 e5 (c5 2. d4 for 100 s) 2. Nf3 (2. f4 for 1 s) 2... Nc6
lesson::Lesson branching() {
  Sketch s;
  const auto e4 = s.play(0, "e4", 0), e5 = s.play(e4, "e5", 1), c5 = s.play(e4, "c5", 100);
  s.play(c5, "d4", 150);
  s.play(e5, "f4", 200);
  const auto nf3 = s.play(e5, "Nf3", 201);
  s.play(nf3, "Nc6", 230);
  s.transcript.duration = 240;
  return s.lesson();
}

TEST(Overview, ShowsEachBranchOnceInTheOrderOfTheWalk) {
  const lesson::Lesson lesson = branching();
  EXPECT_EQ(shown(lesson, overview(lesson, 9)), "0 e4; 1 e5; 2 Nf3 Nc6; 2 f4; 1 c5 d4; 0 left out");
}

TEST(Overview, LeavesOutWhatWasTalkedOfLeastAndGoesOnPastIt) {
  const lesson::Lesson lesson = branching();
  EXPECT_EQ(shown(lesson, overview(lesson, 4)), "0 e4; 1 e5 Nf3 Nc6; 1 c5 d4; 1 left out");
  EXPECT_EQ(shown(lesson, overview(lesson, 1)), "0 e4; 4 left out");
}

TEST(Overview, OfTheStartAloneIsEmpty) {
  EXPECT_EQ(shown(Sketch().lesson(), overview(Sketch().lesson(), 5)), "0 left out");
}

}  // namespace
}  // namespace plyscribe::publish
