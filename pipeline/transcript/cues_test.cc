#include "transcript/cues.h"

#include <gtest/gtest.h>

#include "transcript/test_reading.h"

namespace plyscribe::transcript {
namespace {

// A WebVTT file whose cues follow each other every two seconds.
Result<Transcript> read_lines(const std::vector<const char*>& cues, double gap = 0) {
  std::string text = "WEBVTT\n";
  for (std::size_t i = 0; i < cues.size(); ++i) {
    text += fmt::format("\n00:{:06.3f} --> 00:{:06.3f}\n{}\n", 2.0 * static_cast<double>(i),
                        2.0 * static_cast<double>(i) + 2 - gap, cues[i]);
  }
  return read_as(Format::kWebVtt, text);
}

TEST(RollingCaptions, ALineShownAgainIsSaidOnce) {
  EXPECT_EQ(show_words(read_lines({"so after c5", "so after c5\nWhite takes on c5",
                                   "White takes on c5\nand I think"})),
            "so after c5 / White takes on c5 / and I think");
}

TEST(RollingCaptions, CuesThatOnlyHoldTheLineGo) {
  EXPECT_EQ(show_words(read_lines({"so after c5", "so after c5", "so after c5\nWhite takes",
                                   "White takes", "White takes\nok", "ok\ngood"})),
            "so after c5 / White takes / ok / good");
}

TEST(RollingCaptions, LinesThatGrow) {
  EXPECT_EQ(show_words(read_lines(
                {"so", "so after", "so after c5", "so after c5 White", "so after c5 White takes"})),
            "so / after / c5 / White / takes");
}

TEST(RollingCaptions, NewWordsTakeTheTimeOfTheirOwnCue) {
  const auto t = read_lines({"so after c5", "so after c5\nWhite takes"});
  ASSERT_TRUE(t);
  EXPECT_EQ(t->words[3].start, 2);
}

TEST(RollingCaptions, SpeechThatRepeatsItselfStays) {
  EXPECT_EQ(show_words(read_lines({"takes", "takes", "takes back"})), "takes / takes / takes back");
  EXPECT_EQ(show_words(read_lines({"he takes", "takes on c5"})), "he takes / takes on c5");
  EXPECT_EQ(show_words(read_lines({"I say it again", "I say it again"}, 0.5)),
            "I say it again / I say it again");
  EXPECT_EQ(show_words(read_lines({"we play knight f3", "knight f3 is good"})),
            "we play knight f3 / knight f3 is good");
}

TEST(OverlappingCues, WordsKeepTheOrderOfTheirCues) {
  EXPECT_EQ(
      show_times(read_as(
          Format::kWebVtt,
          "WEBVTT\n\n00:01.000 --> 00:09.000\nfour four\n\n00:03.000 --> 00:05.000\nfour four")),
      "four@1.00 four@2.00 four@3.00 four@4.00");
  const auto t =
      read_as(Format::kWebVtt,
              "WEBVTT\n\n00:01.000 --> 00:03.000\nfour four\n\n00:01.000 --> 00:03.000\nfive five");
  EXPECT_EQ(show_words(t), "four four / five five");
  ASSERT_TRUE(t);
  EXPECT_EQ(find_fault(*t, std::string(200, ' ')), "");
}

}  // namespace
}  // namespace plyscribe::transcript
