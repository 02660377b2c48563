#include "publish/highlights.h"

#include <gtest/gtest.h>

#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using resolve::Act;
using tests::Sketch;

// e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7, named a second apart from t on.
std::vector<std::int32_t> line(Sketch& s, double t) {
  std::vector<std::int32_t> nodes;
  std::int32_t at = 0;
  for (const char* san : {"e4", "e5", "Nf3", "Nc6", "Bb5", "a6", "Ba4", "Nf6", "O-O", "Be7"}) {
    at = s.play(at, san, t++);
    nodes.push_back(at);
  }
  return nodes;
}

TEST(Highlights, ALineRattledOffHasNone) {
  Sketch s;
  line(s, 1);
  s.transcript.duration = 12;
  EXPECT_TRUE(highlights(s.lesson()).empty());
}

TEST(Highlights, WhereTheLecturerStoppedIsOne) {
  Sketch s;
  const auto nodes = line(s, 1);
  s.transcript.duration = 70;  // a minute on the last move
  EXPECT_EQ(highlights(s.lesson()), (std::vector<lesson::NodeId>{nodes.back()}));
}

TEST(Highlights, BranchesAndIdeasCountToo) {
  Sketch s;
  const auto nodes = line(s, 1);
  s.say(nodes[3], 12, "Bc4", {.act = Act::kIdea, .text = "Bc4"});
  s.say(nodes[3], 13, "d4", {.act = Act::kIdea, .text = "d4"});
  s.say(nodes[3], 14, "g3", {.act = Act::kIdea, .text = "g3"});
  for (const char* san : {"d6", "Nf6", "Bc5"}) s.play(nodes[6], san, 15);
  s.transcript.duration = 16;
  EXPECT_EQ(highlights(s.lesson()), (std::vector<lesson::NodeId>{nodes[3], nodes[6]}));
}

TEST(Highlights, TwoThatAreCloseTogetherAreOneTheStronger) {
  Sketch s;
  const auto nodes = line(s, 1);
  s.say(nodes[4], 20, "Bb5", {.act = Act::kRevisit});
  s.say(nodes[5], 65, "a6", {.act = Act::kRevisit});
  s.say(nodes[8], 130, "O-O", {.act = Act::kRevisit});
  s.transcript.duration = 180;
  // Bb5 45 s, a6 65 s, O-O 50 s: a6 stands beside Bb5; O-O is three plies further.
  EXPECT_EQ(highlights(s.lesson()), (std::vector<lesson::NodeId>{nodes[5], nodes[8]}));
}

TEST(Highlights, SiblingsShareOne) {
  Sketch s;
  const auto nodes = line(s, 1);
  s.play(nodes[4], "Nf6", 20);
  s.play(nodes[4], "d6", 70);
  s.transcript.duration = 125;
  EXPECT_EQ(highlights(s.lesson()), (std::vector<lesson::NodeId>{12}));  // 55 s, not 50
}

TEST(Highlights, TheStartHasItsDiagramAnyway) {
  Sketch s;
  s.play(0, "e4", 1);
  EXPECT_TRUE(highlights(s.lesson()).empty());
}

}  // namespace
}  // namespace plyscribe::publish
