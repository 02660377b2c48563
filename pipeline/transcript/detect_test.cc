#include <gtest/gtest.h>

#include "transcript/test_reading.h"

namespace plyscribe::transcript {
namespace {

struct Row {
  const char* text;
  Format format;
};

constexpr Row kRows[] = {
    {"[0:03] So", Format::kStampedText},
    {"# Title\n\n[0:03] So", Format::kStampedText},
    {"0:03 So", Format::kStampedText},
    {"So what", Format::kStampedText},
    {"1\n00:00:03,000 --> 00:00:05,000\nSo", Format::kSubRip},
    {"\n\n00:00:03.000 --> 00:00:05.000\nSo", Format::kSubRip},
    {"WEBVTT\n\n00:03.000 --> 00:05.000\nSo", Format::kWebVtt},
    {"\xEF\xBB\xBFWEBVTT - title\n\n00:03.000 --> 00:05.000\nSo", Format::kWebVtt},
    {"<?xml version=\"1.0\"?><tt><body><div><p begin=\"1s\">So</p></div></body></tt>",
     Format::kTtml},
    {"<tt:tt xmlns:tt=\"http://www.w3.org/ns/ttml\"><tt:body><tt:div><tt:p "
     "begin=\"1s\">So</tt:p></tt:div></tt:body></tt:tt>",
     Format::kTtml},
    {";; c\nlesson A 3.10 0.25 so 0.9", Format::kCtm},
    {"lesson 1 3.10 0.25 so", Format::kCtm},
    {"{\"words\":[{\"word\":\"so\",\"start\":1,\"end\":2}]}", Format::kJson},
    {" [ {\"word\":\"so\",\"start\":1,\"end\":2}]", Format::kJson},
    {"[[\"so\",1,2]]", Format::kJson},
};

TEST(Detect, TellsTheFormatFromTheContent) {
  for (const Row& r : kRows) {
    const auto t = read_transcript(r.text, "t");
    if (!t) {
      EXPECT_STREQ(r.text, "So what") << t.error().message;
      continue;
    }
    EXPECT_STREQ(format_name(t->format), format_name(r.format)) << r.text;
  }
}

TEST(Detect, OptionsOverrideIt) {
  EXPECT_EQ(show_words(read_as(Format::kSubRip, "[0:03] So")),
            "! t:1: expected a line of times such as 00:01:02,500 --> 00:01:04,000, found none");
}

TEST(FormatNames, GoThereAndBack) {
  for (const Format f : {Format::kStampedText, Format::kSubRip, Format::kWebVtt, Format::kTtml,
                         Format::kCtm, Format::kJson}) {
    const auto parsed = parse_format_name(format_name(f));
    ASSERT_TRUE(parsed);
    EXPECT_EQ(*parsed, f);
  }
  const auto unknown = parse_format_name("doc");
  ASSERT_FALSE(unknown);
  EXPECT_EQ(unknown.error().message,
            "expected a format, one of text, srt, vtt, ttml, ctm, json; found doc");
}

}  // namespace
}  // namespace plyscribe::transcript
