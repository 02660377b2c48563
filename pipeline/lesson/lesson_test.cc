#include "lesson/lesson.h"

#include <gtest/gtest.h>

#include "tests/publish/sketch.h"

namespace plyscribe::lesson {
namespace {

using resolve::Act;
using tests::Sketch;

TEST(Status, IsDecidedByConfidenceThenByWhatWasHeard) {
  struct Row {
    double confidence;
    bool as_heard;
    Status status;
  };
  for (const Row& row :
       {Row{1, true, Status::kClear}, Row{kSureFrom, true, Status::kClear},
        Row{1, false, Status::kMended}, Row{kSureFrom, false, Status::kMended},
        Row{kSureFrom - 0.01, true, Status::kUnsure}, Row{kSureFrom - 0.01, false, Status::kUnsure},
        Row{0, true, Status::kUnsure}}) {
    EXPECT_EQ(status_of(row.confidence, row.as_heard), row.status)
        << row.confidence << " as_heard " << row.as_heard;
  }
}

TEST(Status, NamesReadBack) {
  for (Status s : {Status::kClear, Status::kMended, Status::kUnsure, Status::kLoose}) {
    EXPECT_EQ(parse_status(status_name(s)), s) << status_name(s);
  }
  EXPECT_FALSE(parse_status("sure"));
}

TEST(BuildLesson, KeepsWhatWasHeardAndSaidOfEachMention) {
  Sketch s;
  const auto e4 = s.node(0, "e4");
  s.say(e4, 12.5, "he for", {.confidence = 0.9, .as_heard = false, .alternatives = {{"d4", 0.06}}});
  s.say(e4, 40, "e4", {.act = Act::kRevisit, .confidence = 0.7});
  const Lesson lesson = s.lesson();

  ASSERT_EQ(lesson.nodes.size(), 2u);
  const Node& node = lesson.nodes[1];
  EXPECT_EQ(node.parent, 0);
  EXPECT_EQ(node.san, "e4");
  EXPECT_EQ(node.t, 12.5);
  EXPECT_EQ(node.status, Status::kMended);
  EXPECT_EQ(node.confidence, 0.9);
  EXPECT_FALSE(node.unsaid);
  ASSERT_EQ(node.alternatives.size(), 1u);
  EXPECT_EQ(node.alternatives[0].san, "d4");
  ASSERT_EQ(node.mentions.size(), 2u);
  EXPECT_EQ(node.mentions[0].span.heard, "he for");
  EXPECT_EQ(node.mentions[0].said, "e4");
  EXPECT_EQ(node.mentions[0].span.t, 12.5);
  EXPECT_EQ(node.mentions[0].span.t_end, 14.5);
  EXPECT_EQ(node.mentions[0].span.first_word, 0u);
  EXPECT_EQ(node.mentions[0].span.last_word, 2u);
  EXPECT_FALSE(node.mentions[0].revisit);
  EXPECT_TRUE(node.mentions[1].revisit);
}

TEST(BuildLesson, AMoveIsAsSureAsItsSurestMention) {
  Sketch s;
  const auto e4 = s.node(0, "e4");
  s.say(e4, 1, "before", {.confidence = 0.3, .as_heard = false});
  s.say(e4, 9, "e4", {.act = Act::kRevisit, .confidence = 0.95});
  const Node node = s.lesson().nodes[1];
  EXPECT_EQ(node.t, 1);
  EXPECT_EQ(node.confidence, 0.95);
  EXPECT_EQ(node.status, Status::kClear);
}

TEST(BuildLesson, AnUnsaidMoveBorrowsTheEarliestTimeBehindIt) {
  Sketch s;
  const auto e4 = s.node(0, "e4");
  const auto e5 = s.node(e4, "e5");
  const auto nf3 = s.node(e5, "Nf3");
  const auto nc3 = s.node(e5, "Nc3");
  s.say(nc3, 20, "Nc3", {.confidence = 0.5});
  s.say(nf3, 30, "Nf3");
  const Lesson lesson = s.lesson();
  for (const auto id : {e4, e5}) {
    const Node& node = lesson.nodes[static_cast<std::size_t>(id)];
    EXPECT_TRUE(node.unsaid) << node.san;
    EXPECT_EQ(node.t, 20) << node.san;
    EXPECT_EQ(node.confidence, 0.5) << node.san;
    EXPECT_EQ(node.status, Status::kUnsure) << node.san;
  }
}

TEST(BuildLesson, AnUnsaidMoveBeforeASureOneIsMendedNeverClear) {
  Sketch s;
  const auto e4 = s.node(0, "e4");
  s.play(e4, "e5", 7);
  EXPECT_EQ(s.lesson().nodes[1].status, Status::kMended);
}

TEST(BuildLesson, AnUnsaidMoveWithNothingBehindItHasItsParentsTime) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 7);
  s.node(s.node(e4, "e5"), "Nf3");
  const Lesson lesson = s.lesson();
  EXPECT_EQ(lesson.nodes[2].t, 7);
  EXPECT_EQ(lesson.nodes[3].t, 7);
  EXPECT_EQ(lesson.nodes[3].status, Status::kUnsure);
}

TEST(BuildLesson, ComingBackToTheStartIsNoMove) {
  Sketch s("e4 e5");
  s.say(0, 3, "e5", {.act = Act::kRevisit});
  const Lesson lesson = s.lesson();
  ASSERT_EQ(lesson.nodes.size(), 1u);
  EXPECT_TRUE(lesson.nodes[0].mentions.empty());
}

TEST(BuildLesson, AnIdeaIsAMoveWhereItIsLegalForEitherSide) {
  struct Row {
    const char *start, *idea, *text;
    bool is_move;
  };
  const Row rows[] = {
      {"", "Nf3", "Nf3", true},
      {"", "0-0", "0-0", false},
      {"", "f6", "f6", true},  // the other side's plan
      {"e4 e5", "exd6", "exd6", false},
      {"e4 e6 e5 d5", "exd6", "exd6", true},
      {"e4 e6 e5 d5 Nf3", "exd6", "exd6", false},  // too late to take in passing
      {"f3 e5 g4", "Qh4+", "Qh4#", true},
      {"e4 f6 Qh5+", "Nc3", "Nc3", false},  // Black is in check and can't pass
      {"", "rook to the seventh", "rook to the seventh", false},
  };
  for (const Row& row : rows) {
    Sketch s(row.start);
    s.say(0, 1, "some words", {.act = Act::kIdea, .text = row.idea});
    const Lesson lesson = s.lesson();
    ASSERT_EQ(lesson.ideas.size(), 1u);
    EXPECT_EQ(lesson.ideas[0].text, row.text) << row.start << " " << row.idea;
    EXPECT_EQ(lesson.ideas[0].is_move, row.is_move) << row.start << " " << row.idea;
    EXPECT_EQ(lesson.ideas[0].span.heard, "some words");
  }
}

TEST(BuildLesson, WhatIsLooseKeepsItsWordsAndWhy) {
  Sketch s;
  s.say(-1, 5, "rook e one", {.act = Act::kLoose, .text = "no rook can go there"});
  const Lesson lesson = s.lesson();
  ASSERT_EQ(lesson.loose.size(), 1u);
  EXPECT_EQ(lesson.loose[0].span.heard, "rook e one");
  EXPECT_EQ(lesson.loose[0].span.t, 5);
  EXPECT_EQ(lesson.loose[0].why, "no rook can go there");
}

}  // namespace
}  // namespace plyscribe::lesson
