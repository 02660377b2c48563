#include "publish/sections.h"

#include <gtest/gtest.h>

#include "publish/place.h"
#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using tests::Sketch;

// "0: e4 e5 | 1: c5 Nf3 | 0: Nc3", depths before the moves.
std::string shown(const lesson::Lesson& lesson, const std::vector<Paragraph>& paragraphs) {
  std::string text;
  for (const Paragraph& p : paragraphs) {
    if (!text.empty()) text += " | ";
    text += std::to_string(p.depth) + ":";
    for (const auto id : p.moves) text += " " + lesson.nodes[static_cast<std::size_t>(id)].san;
  }
  return text;
}

struct Fixture {
  Sketch s;
  std::int32_t e4 = s.play(0, "e4", 1), e5 = s.play(e4, "e5", 2), nf3 = s.play(e5, "Nf3", 3),
               c5 = s.play(e4, "c5", 30), d4 = s.play(c5, "d4", 31), f4 = s.play(e5, "f4", 40),
               nc6 = s.play(nf3, "Nc6", 50);
};

TEST(Sections, ALessonWithoutChaptersIsOne) {
  const lesson::Lesson lesson = Fixture().s.lesson();
  const auto all = sections(lesson);
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].title, "");
  EXPECT_EQ(all[0].moves.size(), 7u);
  ASSERT_EQ(all[0].roots, (std::vector<lesson::NodeId>{1}));
  EXPECT_EQ(shown(lesson, paragraphs(lesson, all[0], 1)),
            "0: e4 e5 | 1: c5 d4 | 0: Nf3 | 1: f4 | 0: Nc6");
}

TEST(Sections, AMoveBelongsToTheLastChapterOnItsWay) {
  Fixture f;
  lesson::Lesson lesson = f.s.lesson();
  lesson.chapters = {{0, "One", f.e4}, {30, "Two", f.c5}, {40, "Three", f.nf3}};
  const auto all = sections(lesson);
  ASSERT_EQ(all.size(), 3u);
  EXPECT_EQ(all[0].title, "One");
  EXPECT_EQ(all[0].roots, (std::vector<lesson::NodeId>{f.e4}));
  EXPECT_EQ(shown(lesson, paragraphs(lesson, all[0], f.e4)), "0: e4 e5 f4");
  EXPECT_EQ(all[1].title, "Two");
  EXPECT_EQ(shown(lesson, paragraphs(lesson, all[1], f.c5)), "0: c5 d4");
  EXPECT_EQ(shown(lesson, paragraphs(lesson, all[2], f.nf3)), "0: Nf3 Nc6");
}

TEST(Sections, MovesOutsideTheChaptersComeFirstWithoutATitle) {
  Fixture f;
  lesson::Lesson lesson = f.s.lesson();
  lesson.chapters = {{30, "Two", f.c5}};
  const auto all = sections(lesson);
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[0].title, "");
  EXPECT_EQ(shown(lesson, paragraphs(lesson, all[0], f.e4)), "0: e4 e5 Nf3 | 1: f4 | 0: Nc6");
  lesson.chapters = {{0, "Opening moves", 0}, {30, "Two", f.c5}};
  EXPECT_EQ(sections(lesson).front().title, "Opening moves");
}

TEST(Sections, AChapterThatComesBackToABranchIsNotShownTwice) {
  Fixture f;
  lesson::Lesson lesson = f.s.lesson();
  lesson.chapters = {{0, "One", f.e4}, {90, "One again", f.e4}};
  EXPECT_EQ(sections(lesson).size(), 1u);
}

TEST(Sections, TheStartAloneHasNone) { EXPECT_TRUE(sections(Sketch().lesson()).empty()); }

}  // namespace
}  // namespace plyscribe::publish
