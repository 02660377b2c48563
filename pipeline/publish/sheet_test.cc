// What the sheet must hold. How it looks on paper is checked by tests/publish/print_check.mjs.
#include "publish/sheet.h"

#include <gtest/gtest.h>

#include <string>

#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using lesson::Advice;
using lesson::Lesson;
using tests::Sketch;

lesson::Span words(double t, const char* heard) { return {t, t + 2, 0, 0, heard}; }

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t i = text.find(part); i != text.npos; i = text.find(part, i + 1)) ++n;
  return n;
}

#define EXPECT_HAS(text, part) \
  EXPECT_NE((text).find(part), std::string::npos) << "expected to find: " << (part)
#define EXPECT_HAS_NOT(text, part) \
  EXPECT_EQ((text).find(part), std::string::npos) << "expected not to find: " << (part)

struct Fixture {
  Sketch s{"e4 e5 Nf3"};
  std::int32_t nc6 = s.play(0, "Nc6", 3), bb5 = s.play(nc6, "Bb5", 4), a6 = s.play(bb5, "a6", 5),
               nf6 = s.play(bb5, "Nf6", 65), bc4 = s.play(nc6, "Bc4", 80),
               bc5 = s.play(bc4, "Bc5", 81);

  Lesson lesson() const {
    Lesson lesson = s.lesson();
    lesson.title = "Open games & <others>";
    lesson.side = board::Color::kBlack;
    return lesson;
  }
};

TEST(Sheet, HoldsEveryMoveOnceInSomeChapter) {
  Fixture f;
  Lesson lesson = f.lesson();
  for (const bool chapters : {false, true}) {
    if (chapters) lesson.chapters = {{0, "Spanish", f.bb5}, {70, "Italian", f.bc4}};
    const std::string html = write_sheet(lesson, {});
    EXPECT_EQ(count(html, "<span class=\"move\" id=\"m"), lesson.nodes.size() - 1);
    for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
      EXPECT_EQ(count(html, "id=\"m" + std::to_string(i) + "\""), 1u);
    }
  }
  const std::string html = write_sheet(lesson, {});
  EXPECT_HAS(html, "<h2>Spanish <span class=\"time\">0:00</span></h2>");
  EXPECT_HAS(html, "<h2>Italian <span class=\"time\">1:10</span></h2>");
  EXPECT_HAS(html, "After 2...&nbsp;Nc6:");
}

TEST(Sheet, WhatWasHeardStaysText) {
  Fixture f;
  Lesson lesson = f.lesson();
  lesson.nodes[1].remarks = {words(3, "knights <script> & bishops")};
  lesson.credits = {{words(7, "x"), "A <b>", "", "", "", 0}};
  const std::string html = write_sheet(lesson, {});
  EXPECT_HAS(html, "<h1>Open games &amp; &lt;others&gt;</h1>");
  EXPECT_HAS(html, "\u201cknights &lt;script&gt; &amp; bishops\u201d");
  EXPECT_HAS(html, "A &lt;b&gt;");
  EXPECT_HAS_NOT(html, "<script");
  EXPECT_HAS_NOT(html, "<others>");
}

TEST(Sheet, TimesAreLinksWhereThereIsARecording) {
  Fixture f;
  Lesson lesson = f.lesson();
  EXPECT_HAS_NOT(write_sheet(lesson, {}), "<a class=\"time\"");
  const Link link = *Link::parse("https://video.invalid/7?a=b&t={seconds}");
  EXPECT_HAS(write_sheet(lesson, link),
             "<a class=\"time\" href=\"https://video.invalid/7?a=b&amp;t=65\">1:05</a>");
  EXPECT_HAS_NOT(write_sheet(lesson, Link::of_media("javascript:alert(1)//")), "javascript");
}

TEST(Sheet, SaysWhatTheLecturerThoughtOfAMove) {
  Fixture f;
  Lesson lesson = f.lesson();
  lesson::Node& nf6 = lesson.nodes[static_cast<std::size_t>(f.nf6)];
  nf6.advice = Advice::kRecommended;
  nf6.counsels = {{Advice::kRecommended, words(66, "my own choice")}};
  lesson.nodes[static_cast<std::size_t>(f.a6)].advice = Advice::kAvoided;
  lesson.nodes[static_cast<std::size_t>(f.bc5)].judgements = {{13, words(82, "who knows")}};
  const std::string html = write_sheet(lesson, {});
  EXPECT_HAS(html, "Nf6</span> <span class=\"opinion\">recommended</span>");
  EXPECT_HAS(html, "a6</span> <span class=\"opinion\">to be avoided</span>");
  EXPECT_HAS(html, "Bc5</span> <span class=\"opinion\">unclear</span>");
  EXPECT_HAS(html,
             "<li>After 3.&nbsp;Bb5: <b>3...&nbsp;Nf6</b>, not 3...&nbsp;a6 "
             "(\u201cmy own choice\u201d) <span class=\"time\">1:06</span></li>");
}

TEST(Sheet, ADiagramStandsWhereTheLecturerDwelt) {
  Fixture f;
  const std::string html = write_sheet(f.lesson(), {});
  EXPECT_EQ(count(html, "<figure>"), 1u);
  EXPECT_HAS(html, "<figcaption>After 3...&nbsp;a6 <span class=\"time\">0:05</span>");
  EXPECT_EQ(count(html, "<figure class=\"start\">"), 1u);
  EXPECT_HAS(html, "<figcaption>1.&nbsp;e4 e5 2.&nbsp;Nf3</figcaption>");
}

TEST(Sheet, ALessonFromMoveOneOpensWithItsFirstBranching) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1);
  s.play(e4, "e5", 2);
  s.play(e4, "c5", 3);
  EXPECT_HAS(write_sheet(s.lesson(), {}), "<figcaption>1.&nbsp;e4</figcaption>");
  Sketch line;
  line.play(line.play(0, "e4", 1), "e5", 2);
  EXPECT_HAS(write_sheet(line.lesson(), {}), "<figcaption>The start</figcaption>");
}

TEST(Sheet, UnsureAndUnsaidMovesAreMarkedAndTheMarksExplained) {
  Sketch s;
  const auto e4 = s.node(0, "e4"), e5 = s.play(e4, "e5", 2);
  Lesson lesson = s.lesson();
  std::string html = write_sheet(lesson, {});
  EXPECT_HAS(html, "1.&nbsp;<i>e4</i>");
  EXPECT_HAS(html, "without being named");
  EXPECT_HAS_NOT(html, "not certain");

  s.say(e5, 9, "he five", {.act = resolve::Act::kRevisit, .confidence = 0.3});
  s.say(s.node(e5, "d4"), 12, "before", {.confidence = 0.3, .as_heard = false});
  html = write_sheet(s.lesson(), {});
  EXPECT_HAS(html, "\u2039d4\u203a");
  EXPECT_HAS(html, "not certain");
}

TEST(Sheet, OfALessonWithoutMovesIsStillAPage) {
  const std::string html = write_sheet(Sketch().lesson(), {});
  EXPECT_HAS(html, "</html>");
  EXPECT_HAS(html, "0 moves");
}

}  // namespace
}  // namespace plyscribe::publish
