#include "lesson/chapters.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "tests/publish/sketch.h"

namespace plyscribe::lesson {
namespace {

std::vector<std::string> listed(const Lesson& lesson) {
  std::vector<std::string> out;
  for (const Chapter& c : lesson.chapters) {
    out.push_back(std::to_string(static_cast<int>(c.t)) + " " + c.title);
  }
  return out;
}

TEST(Chapters, ABranchBeginsWhereTheTalkStaysWithIt) {
  tests::Sketch s("e4 e5 Nf3 Nc6");
  s.transcript.duration = 300;
  const auto bb5 = s.play(0, "Bb5", 20);  // a list of what is to come
  const auto bc4 = s.play(0, "Bc4", 22);
  s.say(bb5, 40, "bishop b5", {.act = resolve::Act::kRevisit});
  s.play(bb5, "a6", 60);
  s.say(bc4, 180, "bishop c4", {.act = resolve::Act::kRevisit});
  s.play(bc4, "Bc5", 200);
  EXPECT_EQ(listed(s.lesson()),
            (std::vector<std::string>{"0 Introduction", "40 3. Bb5: Ruy Lopez (Spanish Opening)",
                                      "180 3. Bc4: King's pawn Game"}));
}

TEST(Chapters, ALargeBranchIsDividedAndItsPartsAreNamedFromIt) {
  tests::Sketch s("e4 e5 Nf3 Nc6");
  s.transcript.duration = 400;
  const auto bb5 = s.play(0, "Bb5", 5);
  const auto a6 = s.play(bb5, "a6", 60);
  s.play(a6, "Ba4", 100);
  const auto nf6 = s.play(bb5, "Nf6", 200);
  s.play(nf6, "O-O", 220);
  s.play(0, "d4", 300);
  const Lesson lesson = s.lesson();
  ASSERT_EQ(lesson.chapters.size(), 4u);
  EXPECT_EQ(lesson.chapters[0].t, 0);  // it began at 5, but there is nothing before
  EXPECT_EQ(lesson.chapters[1].title.rfind("3. Bb5 a6", 0), 0u) << lesson.chapters[1].title;
  EXPECT_EQ(lesson.chapters[2].title.rfind("3. Bb5 Nf6", 0), 0u) << lesson.chapters[2].title;
  EXPECT_EQ(lesson.chapters[3].node, 6);
}

TEST(Chapters, OneLineHasNone) {
  tests::Sketch s("");
  const auto e4 = s.play(0, "e4", 5);
  s.play(e4, "e5", 50);
  EXPECT_TRUE(s.lesson().chapters.empty());
}

TEST(Chapters, EachLastsTenSeconds) {
  tests::Sketch s("");
  s.transcript.duration = 100;
  s.play(0, "e4", 30);
  s.play(0, "d4", 45);
  s.play(0, "c4", 51);   // six seconds after the last
  s.play(0, "Nf3", 95);  // five before the end
  const Lesson lesson = s.lesson();
  double t = -kShortestChapter;
  for (const Chapter& c : lesson.chapters) {
    EXPECT_GE(c.t - t, kShortestChapter) << c.title;
    t = c.t;
  }
  EXPECT_LE(t, 90);
}

}  // namespace
}  // namespace plyscribe::lesson
