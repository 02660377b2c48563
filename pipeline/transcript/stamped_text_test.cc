#include <gtest/gtest.h>

#include "transcript/test_reading.h"

namespace plyscribe::transcript {
namespace {

struct Row {
  const char* text;
  const char* words;     // " / " between captions
  const char* captions;  // starts and ends; "" where they don't matter
};

constexpr Row kAccepts[] = {
    // Every way to write a stamp.
    {"[0:03] So after c5\n\n[0:10] takes", "So after c5 / takes", ""},
    {"[1:02:03] So\n\n[1:02:05] takes\n\n[1:02:07] ok", "So / takes / ok", ""},
    {"(0:03) So\n(0:05) takes\n(0:07) ok", "So / takes / ok", ""},
    {"0:03 So\n0:05 takes\n0:07 ok", "So / takes / ok", ""},
    {"[0:03.500] So\n[0:05.25] takes", "So / takes", ""},
    {"[00:03 - 00:05] So\n[00:05 --> 00:07] takes", "So / takes", ""},
    // Where it may stand.
    {"[0:03]\nSo after\nc5\n\n[0:05]\ntakes", "So after c5 / takes", ""},
    {"0:03\nSo after\n0:05\ntakes", "So after / takes", ""},
    {"[0:03] So [0:05] takes, [0:07] takes", "So / takes, / takes", ""},
    {"Anna Berg  0:03\nSo\n\nSpeaker 2  0:05\ntakes", "So / takes", ""},
    // Where it is none.
    {"[0:03] at (1:30) we\n[0:05] meet at 7:30 today", "at (1:30) we / meet at 7:30 today", ""},
    {"[0:03] it was\n7:30 then", "it was 7:30 then", ""},
    {"[0:03] he won 3:75 or 12:5", "he won 3:75 or 12:5", ""},
    {"[1:03] x\n\n0:30 was the time", "x 0:30 was the time", ""},
    // Paragraphs without a stamp belong to the stamp before.
    {"[0:03] So\n\nafter\n\n[0:05] c5", "So after / c5", ""},
    {"[0:03] So\n[0:03] after\n[0:02] c5", "So after c5", ""},
    // Markdown.
    {"# Title\n\n**[0:03]** So *after* **c5**\n\n- [0:05] takes\n* `0:07` ok\n> [0:09] and",
     "So after c5 / takes / ok / and", ""},
    {"1. [0:03] So\n2. [0:05] takes", "So / takes", ""},
    {"[0:03] 1. e4 e5\n1. d4", "1. e4 e5 1. d4", ""},
    {"[0:03](https://x.y/?t=3) So [after](http://u.v) c5", "So after c5", ""},
    {"## 0:03 Chapter\nSo after\n\n---\n\n## 0:05 Other\nc5", "So after / c5", ""},
    {"---\ntitle: A\n---\n[0:03] So", "So", ""},
    // Speakers.
    {"[0:03] ANNA: So\n[0:05] **Bob:** takes\n[0:07] >> ok\n[0:09] Speaker 1: and",
     "So / takes / ok / and", ""},
    {"[0:03] White: fine. Here: look", "White: fine. Here: look", ""},
    // Before the first stamp.
    {"My lesson\n\n[0:03] So", "So", ""},
    {"Hello and welcome\n\n[0:30] So", "Hello and welcome / So", ""},
    {"[0:03] a\r\n\r\n[0:05] b\r\n", "a / b", ""},
};

TEST(StampedText, Accepts) {
  for (const Row& r : kAccepts) {
    const auto t = read_as(Format::kStampedText, r.text);
    EXPECT_EQ(show_words(t), r.words) << r.text;
    if (t) {
      EXPECT_EQ(find_fault(*t, r.text), "") << r.text;
    }
  }
}

TEST(StampedText, Rejects) {
  constexpr const char* kRejects[][2] = {
      {"hello there", "t:1: expected a time stamp such as [1:05] before the words, found none"},
      {"# 1\n\nhello", "t:1: expected a time stamp such as [1:05] before the words, found none"},
      {"[0:10] a\n\n[0:08] b", "t:3: expected a time stamp not before 0:10, found 0:08"},
      {"[0:10] a\n[0:75] b", "t:2: expected a time such as [1:05] or [1:02:03], found 0:75"},
      {"[1:75:00] b", "t:1: expected a time such as [1:05] or [1:02:03], found 1:75:00"},
      {"[0:10]\n\n[0:20]\n", "t:1: expected a transcript with words in it"},
  };
  for (const auto& r : kRejects) {
    const auto t = read_as(Format::kStampedText, r[0]);
    EXPECT_EQ(show_words(t), std::string("! ") + r[1]) << r[0];
  }
}

TEST(StampedText, TitleIsTheFirstHeading) {
  const auto title = [](const char* text) {
    const auto t = read_as(Format::kStampedText, text);
    return t ? t->title : "! " + t.error().message;
  };
  EXPECT_EQ(title("# The **London** System #\n\n## Part\n\n[0:03] So"), "The London System");
  EXPECT_EQ(title("The London System\n\n[0:03] So"), "The London System");
  EXPECT_EQ(title("The London System\n=====\n\n[0:03] So"), "The London System");
  EXPECT_EQ(title("---\nauthor: x\ntitle: \"The London\"\n---\n[0:03] So"), "The London");
  EXPECT_EQ(title("[0:03] So"), "");
}

TEST(StampedText, WordsShareTheTimeOfTheirCaption) {
  // 3 s less a pause of 0.8 for five words of one weight; the last caption goes on at that pace.
  const auto t =
      read_as(Format::kStampedText, "[0:02] four four four four four\n\n[0:05] four four");
  EXPECT_EQ(show_captions(t), "2-5 5-6.68");
  ASSERT_TRUE(t);
  EXPECT_DOUBLE_EQ(t->words[0].start, 2);
  EXPECT_NEAR(t->words[1].start, 2.44, 0.01);
  EXPECT_NEAR(t->words[4].end, 4.2, 0.01);
  EXPECT_EQ(t->words[6].timed, false);
}

TEST(StampedText, ALongGapIsSilence) {
  const auto t = read_as(
      Format::kStampedText,
      "[0:00] one two three four five\n[0:02] and\n[1:00] one two three four five\n[1:02] six");
  ASSERT_TRUE(t);
  EXPECT_LT(t->words[5].end, 4) << "\"and\" does not last until 1:00";
}

TEST(StampedText, SentencesRunOverParagraphs) {
  const auto t =
      read_as(Format::kStampedText, "[0:03] So after\n\n[0:05] c5. He takes! Good,\n\n[0:09] yes");
  ASSERT_TRUE(t);
  std::string s;
  for (const Word& w : t->words) s += std::to_string(w.sentence);
  EXPECT_EQ(s, "0001122");
}

}  // namespace
}  // namespace plyscribe::transcript
