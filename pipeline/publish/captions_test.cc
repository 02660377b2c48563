#include "publish/captions.h"

#include <gtest/gtest.h>

#include <string>

#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using resolve::Act;

// The lesson in which words [first, last) of the transcript are 1. e4, or whatever is asked for.
struct Case {
  std::string bytes;
  std::uint32_t first, last;
  std::string san = "Nf3";
  double confidence = 1;
};

std::string captions(const Case& c, const Notation& notation = {}) {
  const auto transcript = transcript::read_transcript(c.bytes, "lesson");
  if (!transcript) return transcript.error().message;
  tests::Sketch s;
  const auto id = s.node(0, c.san);
  s.transcript = *transcript;
  resolve::Mention m;
  m.first_word = c.first;
  m.last_word = c.last;
  m.act = Act::kPlay;
  m.node = id;
  m.confidence = c.confidence;
  s.decoding.nodes[static_cast<std::size_t>(id)].unsaid = false;
  s.decoding.mentions = {m};
  const auto written = write_captions(s.lesson(), {*transcript, c.bytes}, notation);
  return written ? *written : written.error().message;
}

TEST(Captions, OnlyTheMoveIsWrittenAnew) {
  const std::string srt =
      "1\r\n00:00:01,000 --> 00:00:04,000\r\nSo, <i>night f three</i>, of course\r\n\r\n";
  EXPECT_EQ(captions({srt, 1, 4}),
            "1\r\n00:00:01,000 --> 00:00:04,000\r\nSo, <i>Nf3</i>, of course\r\n\r\n");
  EXPECT_EQ(captions({srt, 1, 4}, {.style = NotationStyle::kFigurines}),
            "1\r\n00:00:01,000 --> 00:00:04,000\r\nSo, <i>♘f3</i>, of course\r\n\r\n");
  EXPECT_EQ(captions({srt, 1, 4}, {.style = NotationStyle::kWords}),
            "1\r\n00:00:01,000 --> 00:00:04,000\r\nSo, <i>knight f3</i>, of course\r\n\r\n");
  EXPECT_EQ(captions({srt, 1, 4}, {.language = "Polish"}),
            "1\r\n00:00:01,000 --> 00:00:04,000\r\nSo, <i>Sf3</i>, of course\r\n\r\n");
}

TEST(Captions, UnsureMovesStayAsTheyWereHeard) {
  const std::string text = "[0:01] So, night f three, of course.\n";
  EXPECT_EQ(captions({text, 1, 4, "Nf3", 0.5}), text);
  EXPECT_EQ(captions({"[0:01] So, knight f3, of course.\n", 1, 3, "Nf3", 0.5}),
            "[0:01] So, Nf3, of course.\n");
}

TEST(Captions, WordsThatTheSentenceNeedsStay) {
  for (const char* text :
       {"[0:01] So the knight comes to f3, of course.\n", "[0:01] He takes, of course.\n"}) {
    const std::uint32_t first = text[7] == 'S' ? 2 : 1;
    EXPECT_EQ(captions({text, first, text[7] == 'S' ? 6u : 2u}), text);
  }
  EXPECT_EQ(captions({"[0:01] And then, takes, of course.\n", 2, 3}),
            "[0:01] And then, Nf3, of course.\n");
}

TEST(Captions, AMoveParted) {
  // by a line: it stands where its words end
  EXPECT_EQ(captions({"WEBVTT\n\n00:01.000 --> 00:04.000\nso knight\nf3 and on\n", 1, 3}),
            "WEBVTT\n\n00:01.000 --> 00:04.000\nso \nNf3 and on\n");
  // by a line behind a sentence's end: that line stays
  EXPECT_EQ(captions({"WEBVTT\n\n00:01.000 --> 00:04.000\nso knight f3!\nCheck, and on\n", 1, 4}),
            "WEBVTT\n\n00:01.000 --> 00:04.000\nso Nf3!\nCheck, and on\n");
  // by a caption that holds nothing else: no caption may become empty
  EXPECT_EQ(
      captions({"WEBVTT\n\n00:01.000 --> 00:02.000\nknight\n\n00:02.000 --> 00:04.000\nf3 and on\n",
                0, 2}),
      "WEBVTT\n\n00:01.000 --> 00:02.000\nNf3\n\n00:02.000 --> 00:04.000\nNf3 and on\n");
}

TEST(Captions, WordListsKeepTheirShape) {
  EXPECT_EQ(captions({"l A 1.0 0.3 knight\nl A 1.3 0.3 f3 0.9\n", 0, 2}),
            "l A 1.0 0.3 @\nl A 1.3 0.3 Nf3 0.9\n");
  EXPECT_EQ(
      captions(
          {R"([{"word":"knight","start":1,"end":1.3},{"word":"f3","start":1.3,"end":2}])", 0, 2}),
      R"([{"word":"","start":1,"end":1.3},{"word":"Nf3","start":1.3,"end":2}])");
}

TEST(Captions, EncodingsAreKept) {
  std::string wide("\xFF\xFE", 2);
  for (const char c : std::string("[0:01] So knight f3 now.\n")) {
    wide += c;
    wide += '\0';
  }
  const std::string out = captions({wide, 1, 3}, {.style = NotationStyle::kFigurines});
  EXPECT_NE(out.find(std::string("\x58\x26"
                                 "f\0"
                                 "3\0",
                                 6)),
            std::string::npos);  // U+2658, f, 3
  const std::string latin = "[0:01] So knight f3 in K\xF6ln.\n";
  EXPECT_EQ(captions({latin, 1, 3}), "[0:01] So Nf3 in K\xF6ln.\n");
  EXPECT_EQ(captions({latin, 1, 3}, {.style = NotationStyle::kFigurines}).rfind("--notation", 0),
            0u);
}

TEST(Captions, AnotherTranscriptIsRefused) {
  const std::string bytes = "[0:01] So knight f3 now.\n", other = "[0:01] So bishop b5 now.\n";
  const auto transcript = transcript::read_transcript(bytes, "a");
  const auto wrong = transcript::read_transcript(other, "b");
  ASSERT_TRUE(transcript && wrong);
  tests::Sketch s;
  const auto id = s.node(0, "Nf3");
  s.transcript = *transcript;
  resolve::Mention m;
  m.first_word = 1;
  m.last_word = 3;
  m.act = Act::kPlay;
  m.node = id;
  s.decoding.mentions = {m};
  const auto written = write_captions(s.lesson(), {*wrong, other}, {});
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().message,
            "--transcript: expected the transcript that the lesson was made from: 'knight f3' at "
            "word 1, found 'bishop b5'");
}

}  // namespace
}  // namespace plyscribe::publish
