#include "publish/outline.h"

#include <gtest/gtest.h>

#include <string>

#include "publish/text.h"
#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using tests::Sketch;

lesson::Lesson knights_first() {
  Sketch s("e4 e5");
  s.transcript.title = "Knights first";
  s.transcript.duration = 3725;
  s.decoding.side = board::Color::kBlack;
  s.decoding.start.name = "King's Pawn";
  const auto nf3 = s.play(0, "Nf3", 5);
  const auto nc6 = s.node(nf3, "Nc6");
  s.say(nc6, 61, "night sea six", {.confidence = 0.9, .as_heard = false});
  const auto bb5 = s.node(nc6, "Bb5");
  const auto a6 = s.play(bb5, "a6", 70);
  s.say(a6, 75, "castle", {.act = resolve::Act::kIdea, .text = "O-O"});
  const auto nf6 = s.node(nf3, "Nf6");
  s.say(nf6, 3600, "night f sick", {.confidence = 0.3});
  const auto nxe5 = s.node(nf6, "Nxe5");
  s.say(nxe5, 3650, "Ne5", {.confidence = 0.3});
  s.play(nxe5, "Qe7", 3660);
  s.say(-1, 3700, "rook e one", {.act = resolve::Act::kLoose, .text = "no rook can go there"});
  lesson::Lesson lesson = s.lesson();
  lesson.nodes[static_cast<std::size_t>(a6)].judgements.push_back({.nag = 6, .span = {}});
  lesson.nodes.back().advice = lesson::Advice::kRecommended;
  return lesson;
}

TEST(WriteOutline, ShowsLinesBranchesMarksAndWhatWasNotPlaced) {
  EXPECT_EQ(write_outline(knights_first()),
            "Knights first\n"
            "for Black, 1:02:05; from 1. e4 e5 (King's Pawn; given)\n"
            "\n"
            "   0:05  2. Nf3 Nc6~\n"
            "1:00:00  │ 2... [Nf6 \"night f sick\"] 3. [Nxe5] Qe7, recommended\n"
            "   1:10  3. (Bb5) a6?!\n"
            "\n"
            "Ideas\n"
            "   1:15  O-O after 3... a6 \"castle\"\n"
            "\n"
            "Not placed\n"
            "1:01:40  \"rook e one\" no rook can go there\n"
            "\n"
            "7 moves: 3 clear, 1 mended, 2 unsure, 1 not said; 1 idea; 1 not placed\n"
            "~ misheard and mended, [ ] unsure, with the words heard, ( ) not said\n");
}

// What is left of it when a terminal has obeyed the colours.
std::string without_colours(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\x1b') {
      i = text.find('m', i);
    } else {
      out += text[i];
    }
  }
  return out;
}

TEST(WriteOutline, SaysTheSameInColoursAndNoColourRunsOverTheEndOfALine) {
  const lesson::Lesson lesson = knights_first();
  for (const std::size_t columns : {40u, 60u, 79u}) {
    const std::string coloured = write_outline(lesson, {.columns = columns, .colour = true});
    EXPECT_EQ(without_colours(coloured), write_outline(lesson, {.columns = columns}));
    EXPECT_NE(coloured.find("\x1b[32mNc6~\x1b[0m"), std::string::npos) << coloured;
    std::string set = "0";
    for (std::size_t i = 0; i < coloured.size(); ++i) {
      if (coloured.compare(i, 2, "\x1b[") == 0)
        set = coloured.substr(i + 2, coloured.find('m', i) - i - 2);
      if (coloured[i] == '\n') {
        EXPECT_EQ(set, "0") << coloured.substr(0, i);
      }
    }
  }
}

TEST(WriteOutline, DrawsBarsThatEveryTerminalHasWhereItMust) {
  const std::string ascii = write_outline(knights_first(), {.utf8 = false});
  EXPECT_NE(ascii.find("| 2... "), std::string::npos) << ascii;
  for (const char c : ascii) EXPECT_LT(static_cast<unsigned char>(c), 0x80) << ascii;
}

TEST(WriteOutline, LetsNoTextOfTheTranscriptSteerTheTerminal) {
  Sketch s;
  s.transcript.title = "Red \x1b[31mrook\u202E";
  const auto e4 = s.node(0, "e4");
  s.say(e4, 5,
        "e\x07"
        "four\u009B2J",
        {.confidence = 0.2});
  s.say(-1, 7, "\x1b]0;rook", {.act = resolve::Act::kLoose, .text = "no rook can go there"});
  const std::string outline = write_outline(s.lesson());
  EXPECT_EQ(outline.rfind("Red \uFFFD[31mrook\uFFFD\n", 0), 0u) << outline;
  EXPECT_NE(outline.find("[e4 \"e\uFFFDfour\uFFFD2J\"]"), std::string::npos) << outline;
  EXPECT_EQ(outline.find('\x1b'), std::string::npos) << outline;
}

TEST(WriteOutline, FitsATerminalHoweverDeepTheTree) {
  Sketch s;
  std::int32_t main = 0;
  for (int round = 0; round < 12; ++round) {
    for (const char* san : {"Nf3", "Nf6", "Ng1", "Ng8"}) {
      // The side line is talked about longer than the main one, so each is a step further in.
      const auto parent = main;
      main = s.play(parent, san, static_cast<double>(main));
      s.node(parent, s.decoding.nodes[static_cast<std::size_t>(parent)].position.side_to_move() ==
                             board::Color::kWhite
                         ? "Nc3"
                         : "Nc6");
      s.say(static_cast<std::int32_t>(s.decoding.nodes.size()) - 1, 500, "a night on the sea",
            {.confidence = 0.2});
    }
  }
  s.transcript.duration = 60000;
  const std::string outline = write_outline(s.lesson());
  for (std::size_t begin = 0; begin < outline.size();) {
    const std::size_t end = outline.find('\n', begin);
    EXPECT_LE(columns(outline.substr(begin, end - begin)), 79u);
    begin = end + 1;
  }
}

}  // namespace
}  // namespace plyscribe::publish
