// Checks against W3C, "WebVTT: The Web Video Text Tracks Format". Section names and what they ask
// are from memory; the files are our own.
#include <gtest/gtest.h>

#include "transcript/test_reading.h"

namespace plyscribe::transcript {
namespace {

struct Row {
  const char* section;
  const char* text;
  const char* words;
  const char* captions;
};

constexpr Row kAccepts[] = {
    {"1.1 A simple caption file",
     "WEBVTT\n\n00:11.000 --> 00:13.000\n<v Anna>We are at the c-file\n\n00:13.000 --> "
     "00:16.000\n<v Anna>right here.\n",
     "We are at the c-file / right here.", "11-13 13-16"},
    {"1.2 Caption cues with multiple lines",
     "WEBVTT\n\n00:01.000 --> 00:04.000\n- Never take on f7.\n- Why?\n",
     "- Never take on f7. - Why?", "1-4"},
    {"1.3 Styling captions",
     "WEBVTT\n\nSTYLE\n::cue { color: red }\n/* 00:00 */\n\n00:01.000 --> 00:04.000\nSo\n", "So",
     "1-4"},
    {"1.4 Other caption features: comments",
     "WEBVTT\n\nNOTE\nNobody says this\n00 words\n\n00:01.000 --> 00:04.000\nSo\n\nNOTE nor "
     "this\n\n00:05.000 --> 00:06.000\nok\n",
     "So / ok", "1-4 5-6"},
    {"4.1 file structure: header text, metadata below it",
     "WEBVTT Kind: captions\nLanguage: en\n\n00:01.000 --> 00:04.000\nSo", "So", "1-4"},
    {"4.1 file structure: CR and CRLF",
     "WEBVTT\r\r00:01.000 --> 00:04.000\rSo\rok\r\n\r\n00:05.000 --> 00:06.000\r\nyes",
     "So ok / yes", "1-4 5-6"},
    {"4.1 cue identifier",
     "WEBVTT\n\n1 - intro\n00:01.000 --> 00:04.000\nSo\n\nNOTES\n00:05.000 --> 00:06.000\nok",
     "So / ok", "1-4 5-6"},
    {"4.1 timestamp: hours of two digits or more, or none",
     "WEBVTT\n\n100:00:01.000 --> 100:00:04.000\nSo", "So", "360001-360004"},
    {"4.3 region definitions",
     "WEBVTT\n\nREGION\nid:a\nwidth:40%\n\n00:01.000 --> 00:04.000 region:a align:left\nSo", "So",
     "1-4"},
    {"4.4 cue settings",
     "WEBVTT\n\n00:01.000 --> 00:04.000 vertical:rl line:0,start position:10%,line-left size:35% "
     "align:end\nSo",
     "So", "1-4"},
    {"4.2.2 cue text: class, i, b, u, v, lang spans",
     "WEBVTT\n\n00:01.000 --> 00:04.000\n<c.red.big>So</c> <i.x>after</i> <b>c</b>5 <u>d</u> "
     "<v.loud Anna Berg>he</v> <lang en-GB>takes</lang>",
     "So after c5 d he takes", "1-4"},
    {"4.2.2 cue text: ruby",
     "WEBVTT\n\n00:01.000 --> 00:04.000\n<ruby>Springer<rt>knight</rt></ruby> f3", "Springer f3",
     "1-4"},
    {"4.2.2 cue text: escapes",
     "WEBVTT\n\n00:01.000 --> 00:04.000\na &lt; b &amp; c &gt; d&nbsp;e &#x2658;f3 &lrm;x",
     "a < b & c > d e Nf3 x", "1-4"},
    {"4.2.2 a tag may run over a line's end",
     "WEBVTT\n\n00:01.000 --> 00:04.000\n<v\nAnna>So after", "So after", "1-4"},
    {"6.1 parser: a cue may follow without a blank line",
     "WEBVTT\n\n00:01.000 --> 00:04.000\nSo\n00:05.000 --> 00:06.000\nok", "So / ok", "1-4 5-6"},
    {"6.1 parser: a block without an arrow is dropped",
     "WEBVTT\n\nstray\n\n00:01.000 --> 00:04.000\nSo", "So", "1-4"},
    {"6.1 parser: blank lines before and after",
     "WEBVTT\n\n\n\n00:01.000 --> 00:04.000\nSo\n\n\n\n00:05.000 --> 00:06.000\n\n\nno text\n\n",
     "So", "1-4"},
};

TEST(WebVtt, Accepts) {
  for (const Row& r : kAccepts) {
    const auto t = read_transcript(r.text, "t");
    EXPECT_EQ(show_words(t), r.words) << r.section;
    EXPECT_EQ(show_captions(t), r.captions) << r.section;
    if (t) {
      EXPECT_EQ(t->format, Format::kWebVtt) << r.section;
      EXPECT_EQ(find_fault(*t, r.text), "") << r.section;
    }
  }
}

TEST(WebVtt, Rejects) {
  constexpr const char* kRejects[][2] = {
      {"WEBVTT\n\n00:01.000 --> 00:04.000\na\n\n00:05.000 --> soon\nb",
       "t:6: expected times such as 00:01:02.500 --> 00:01:04.000, found 00:05.000 --> soon"},
      {"WEBVTT\n\n01:75.000 --> 01:80.000\na",
       "t:3: expected times such as 00:01:02.500 --> 00:01:04.000, found 01:75.000 --> 01:80.000"},
      {"WEBVTT\n\nNOTE only\n",
       "t:1: expected a cue such as 00:01:02.500 --> 00:01:04.000, found none"},
      {"WEBVTT\n\n00:30.000 --> 00:34.000\na\n\n00:01.000 --> 00:04.000\nb",
       "t:6: expected a time not before 0:30, found 0:01"},
  };
  for (const auto& r : kRejects)
    EXPECT_EQ(show_words(read_as(Format::kWebVtt, r[0])), std::string("! ") + r[1]) << r[0];
}

// Section "WebVTT cue timestamp", from memory: a time inside the cue's interval, later than those
// before.
TEST(WebVtt, TimestampsInTheTextTimeTheirWords) {
  EXPECT_EQ(
      show_times(read_as(
          Format::kWebVtt,
          "WEBVTT\n\n00:01.000 --> 00:04.000\nSo<00:01.500><c> after</c><00:02.000><c> c5</c>")),
      "So=1.00 after=1.50 c5=2.00");
  EXPECT_EQ(show_times(read_as(
                Format::kWebVtt,
                "WEBVTT\n\n00:01.000 --> 00:04.000\n<00:02.000>So <00:01.500>after <00:09.000>c5")),
            "So@2.00 after@2.57 c5@3.43")
      << "times that run back or out of the cue are ignored";
  EXPECT_EQ(
      show_times(read_as(Format::kWebVtt,
                         "WEBVTT\n\n00:00.000 --> 00:02.000\nfour four <00:01.000>four four")),
      "four@0.00 four@0.50 four@1.00 four@1.50");
}

TEST(WebVtt, TitleIsTheHeadersText) {
  for (const char* text : {"WEBVTT The Vienna\n\n00:01.000 --> 00:04.000\nSo",
                           "WEBVTT - The Vienna\n\n00:01.000 --> 00:04.000\nSo"}) {
    const auto t = read_transcript(text, "t");
    ASSERT_TRUE(t);
    EXPECT_EQ(t->title, "The Vienna");
  }
}

}  // namespace
}  // namespace plyscribe::transcript
