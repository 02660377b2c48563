#include "publish/outline.h"

#include <gtest/gtest.h>

#include <string>

#include "publish/text.h"
#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using tests::Sketch;

TEST(WriteOutline, ShowsLinesBranchesMarksAndWhatWasNotPlaced) {
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
  s.play(nf6, "Nxe5", 3650);
  s.say(-1, 3700, "rook e one", {.act = resolve::Act::kLoose, .text = "no rook can go there"});
  EXPECT_EQ(write_outline(s.lesson()),
            "Knights first\n"
            "for Black, 1:02:05; from 1. e4 e5 (King's Pawn; given)\n"
            "\n"
            "   0:05  2. Nf3 Nc6~\n"
            "1:00:00    2... Nf6 [heard \"night f sick\"] 3. Nxe5\n"
            "   1:10  3. (Bb5) a6\n"
            "\n"
            "Ideas\n"
            "   1:15  O-O after 3... a6 \"castle\"\n"
            "\n"
            "Not placed\n"
            "1:01:40  \"rook e one\" no rook can go there\n"
            "\n"
            "6 moves: 3 clear, 1 mended, 1 unsure, 1 not said; 1 idea; 1 not placed\n"
            "marks: ~ mended, [heard ...] unsure, (...) not said\n");
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
