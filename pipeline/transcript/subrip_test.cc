#include <gtest/gtest.h>

#include "transcript/test_reading.h"

namespace plyscribe::transcript {
namespace {

struct Row {
  const char* text;
  const char* words;
  const char* captions;
};

constexpr Row kAccepts[] = {
    {"1\n00:00:03,000 --> 00:00:05,500\nSo after c5,\nWhite takes\n\n2\n00:00:06,000 --> "
     "00:00:07,000\nok\n",
     "So after c5, White takes / ok", "3-5.5 6-7"},
    {"1\r\n00:00:03,000 --> 00:00:05,500\r\nSo\r\n\r\n2\r\n00:00:06,000 --> 00:00:07,000\r\nok",
     "So / ok", "3-5.5 6-7"},
    // Markup, style codes, references, coordinates.
    {"1\n00:00:03,000 --> 00:00:05,000 X1:40 X2:600\n<i>So</i> {\\an8}<font "
     "color=\"#fff\">after</font> c5 &amp; d4 &#9816;f3",
     "So after c5 & d4 Nf3", "3-5"},
    {"1\n00:00:03,000 --> 00:00:05,000\nx < y &unknown; & z", "x < y &unknown; & z", "3-5"},
    // Numbers: of cues, and spoken.
    {"00:00:03,000 --> 00:00:05,000\nSo\n\n00:00:06,000 --> 00:00:07,000\nok", "So / ok",
     "3-5 6-7"},
    {"1\n00:00:03,000 --> 00:00:05,000\n42\n\n2\n00:00:06,000 --> 00:00:07,000\n7", "42 / 7",
     "3-5 6-7"},
    {"1\n00:00:03,000 --> 00:00:05,000\nSo\n2\n00:00:06,000 --> 00:00:07,000\nok", "So / ok",
     "3-5 6-7"},
    {"1\n00:00:03,000 --> 00:00:05,000\nSo\n\nafter\n\n2\n00:00:06,000 --> 00:00:07,000\nok",
     "So after / ok", "3-5 6-7"},
    // Loose times.
    {"1\n0:03.5 --> 0:05\nSo", "So", "3.5-5"},
    // Out of order a little: put in order. An end before its start is not known. Cues without words
    // go.
    {"1\n00:00:03,000 --> 00:00:05,000\nb\n\n2\n00:00:02,000 --> 00:00:04,000\na", "a / b",
     "2-4 3-5"},
    {"1\n00:00:03,000 --> 00:00:01,000\na\n\n2\n00:00:06,000 --> 00:00:07,000\nb", "a / b",
     "3-6 6-7"},
    {"1\n00:00:03,000 --> 00:00:05,000\n\n\n2\n00:00:06,000 --> 00:00:07,000\n- ok", "- ok", "6-7"},
};

TEST(SubRip, Accepts) {
  for (const Row& r : kAccepts) {
    const auto t = read_transcript(r.text, "t");
    EXPECT_EQ(show_words(t), r.words) << r.text;
    EXPECT_EQ(show_captions(t), r.captions) << r.text;
    if (t) {
      EXPECT_EQ(t->format, Format::kSubRip);
      EXPECT_EQ(find_fault(*t, r.text), "") << r.text;
    }
  }
}

TEST(SubRip, Rejects) {
  constexpr const char* kRejects[][2] = {
      {"1\n00:00:03,000 --> 00:00:05,000\na\n\n2\n00:00:06,000 --> 00:61:07,000\nb",
       "t:6: expected times such as 00:01:02,500 --> 00:01:04,000, found 00:00:06,000 --> "
       "00:61:07,000"},
      {"1\n00:00:33,000 --> 00:00:35,000\na\n\n2\n00:00:06,000 --> 00:00:07,000\nb",
       "t:6: expected a time not before 0:33, found 0:06"},
      {"1\n00:00:33,000 --> 00:00:35,000\n\n", "t:1: expected a transcript with words in it"},
      {"1\nhello",
       "t:1: expected a line of times such as 00:01:02,500 --> 00:01:04,000, found none"},
  };
  for (const auto& r : kRejects)
    EXPECT_EQ(show_words(read_as(Format::kSubRip, r[0])), std::string("! ") + r[1]) << r[0];
}

}  // namespace
}  // namespace plyscribe::transcript
