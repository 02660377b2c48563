// What a person settles holds, whatever the words are; what can't hold is said.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "board/notation.h"
#include "resolve/decode.h"
#include "transcript/transcript.h"

namespace plyscribe::resolve {
namespace {

transcript::Transcript heard(const std::string& words) {
  const auto t = transcript::read_transcript("[0:01] " + words + "\n", "lesson.txt");
  EXPECT_TRUE(t) << words;
  return *t;
}

// The pin of a phrase that the words hold once.
Pin pin(const transcript::Transcript& t, const std::string& phrase, Pin::Kind kind,
        std::vector<std::string> moves = {}) {
  std::vector<std::string> wanted;
  for (std::size_t i = 0; i <= phrase.size();) {
    const std::size_t end = std::min(phrase.find(' ', i), phrase.size());
    wanted.push_back(phrase.substr(i, end - i));
    i = end + 1;
  }
  for (std::uint32_t w = 0; w + wanted.size() <= t.words.size(); ++w) {
    bool here = true;
    for (std::size_t k = 0; k < wanted.size(); ++k) here = here && t.words[w + k].text == wanted[k];
    if (!here) continue;
    Pin p{w, w + static_cast<std::uint32_t>(wanted.size()), kind, "", {}};
    if (kind == Pin::Kind::kMove) p.san = moves.at(0);
    if (kind == Pin::Kind::kLine) p.line = std::move(moves);
    return p;
  }
  ADD_FAILURE() << "no words " << phrase;
  return {};
}

// "e4 e5 Nf3" from the start position to the node.
std::string line(const Decoding& d, std::int32_t node) {
  std::string out;
  for (; node > 0; node = d.nodes[static_cast<std::size_t>(node)].parent) {
    const Node& n = d.nodes[static_cast<std::size_t>(node)];
    const Node& up = d.nodes[static_cast<std::size_t>(n.parent)];
    out = board::to_san(up.position, n.move) + (out.empty() ? "" : " ") + out;
  }
  return out;
}

// The settled mention of the pin's words, or null.
const Mention* settled(const Decoding& d, const Pin& p) {
  for (const Mention& m : d.mentions) {
    if (m.settled && m.first_word == p.first_word && m.last_word == p.last_word) return &m;
  }
  return nullptr;
}

Decoding decoded(const transcript::Transcript& t, const std::vector<Pin>& pins,
                 const std::string& start = "e4 e5") {
  auto d = decode(t, {.start = start, .side = board::Color::kWhite, .pins = pins});
  EXPECT_TRUE(d) << d.error().message;
  return d ? *d : Decoding{};
}

constexpr const char* kTalk =
    "White plays Nf3. Black answers Nc6, defending. Now Bb5, the old move, and before anything "
    "else Black asks the bishop with a6. The retreat is Ba4, and then Nf6 attacks the pawn.";

TEST(Pins, MoveLineAndNoMoveHold) {
  const auto t = heard(kTalk);
  struct Row {
    const char* words;
    Pin::Kind kind;
    std::vector<std::string> moves;
    const char* at;  // line of the pinned mention; null: nothing is placed there
  };
  for (const Row& row : {
           // Another move than the words say, at the cursor.
           Row{"Bb5", Pin::Kind::kMove, {"Bc4"}, "Nf3 Nc6 Bc4"},
           // Words that no reading covers.
           Row{"the old move", Pin::Kind::kMove, {"a6"}, "Nf3 Nc6 Bb5 a6"},
           // Elsewhere in the tree: a move that is already there.
           Row{"a6", Pin::Kind::kLine, {"Nf3"}, "Nf3"},
           // A sibling far up.
           Row{"a6", Pin::Kind::kLine, {"Bc4"}, "Bc4"},
           // Over moves that nobody said.
           Row{"Nf6", Pin::Kind::kLine, {"f4", "exf4", "Nf3", "g5"}, "f4 exf4 Nf3 g5"},
           Row{"Bb5", Pin::Kind::kNoMove, {}, nullptr},
           // The pin cuts a reading in two.
           Row{"with", Pin::Kind::kNoMove, {}, nullptr},
       }) {
    const Pin p = pin(t, row.words, row.kind, row.moves);
    const Decoding d = decoded(t, {p});
    EXPECT_TRUE(d.unheld.empty()) << row.words << ": " << d.unheld[0].why;
    const Mention* m = settled(d, p);
    if (row.at == nullptr) {
      for (const Mention& other : d.mentions) {
        if (other.first_word >= p.last_word || other.last_word <= p.first_word) continue;
        EXPECT_TRUE(other.act == Act::kIdea) << row.words;
      }
      continue;
    }
    ASSERT_NE(m, nullptr) << row.words;
    EXPECT_EQ(line(d, m->node), row.at);
    EXPECT_EQ(m->confidence, 1) << row.words;
    EXPECT_TRUE(m->alternatives.empty()) << row.words;
    EXPECT_TRUE(m->act == Act::kPlay || m->act == Act::kRevisit) << row.words;
  }
}

TEST(Pins, AMoveIsHeardAsSaidOnlyIfTheWordsSayIt) {
  const auto t = heard(kTalk);
  const Pin same = pin(t, "Bb5", Pin::Kind::kMove, {"Bb5"});
  const Pin other = pin(t, "Bb5", Pin::Kind::kMove, {"Bc4"});
  EXPECT_TRUE(settled(decoded(t, {same}), same)->as_heard);
  EXPECT_FALSE(settled(decoded(t, {other}), other)->as_heard);
}

TEST(Pins, WhatFollowsGoesOnFromThere) {
  const auto t =
      heard("White plays Nf3, Black plays Nc6. White plays Bb5, Black plays Bc5, c3, Nf6.");
  const Pin p = pin(t, "Bb5", Pin::Kind::kMove, {"Bc4"});
  const Decoding d = decoded(t, {p});
  EXPECT_EQ(line(d, static_cast<std::int32_t>(d.nodes.size()) - 1), "Nf3 Nc6 Bc4 Bc5 c3 Nf6");
}

// The move is legal only after one or two that nobody says: made on the board, marked as unsaid.
TEST(Pins, AMoveOutOfTurnGetsTheMovesBetween) {
  const auto t = heard("White plays Nf3 and then something happens here.");
  for (const char* san : {"Bb5", "Nxe4"}) {
    const Pin p = pin(t, "something happens", Pin::Kind::kMove, {san});
    const Decoding d = decoded(t, {p});
    ASSERT_TRUE(d.unheld.empty()) << san;
    const Mention* m = settled(d, p);
    ASSERT_NE(m, nullptr) << san;
    const Node& node = d.nodes[static_cast<std::size_t>(m->node)];
    EXPECT_FALSE(node.unsaid);
    EXPECT_TRUE(d.nodes[static_cast<std::size_t>(node.parent)].unsaid) << line(d, m->node);
  }
}

TEST(Pins, WhatCantHoldIsSaidAndTheRestIsDecoded) {
  const auto t = heard(kTalk);
  struct Row {
    Pin pin;
    const char* why;
  };
  Pin outside;
  outside.first_word = 400;
  outside.last_word = 402;
  const Pin empty = pin(t, "Bb5", Pin::Kind::kLine);
  for (const Row& row : {
           Row{pin(t, "Bb5", Pin::Kind::kLine, {"Nf3", "Ke3"}),
               "move 2 of its line, Ke3, is not legal"},
           Row{pin(t, "Bb5", Pin::Kind::kMove, {"Qa8#"}), "Qa8# is legal nowhere near"},
           Row{pin(t, "Bb5", Pin::Kind::kMove, {"perhaps"}), "perhaps is legal nowhere near"},
           Row{outside, "the lesson has no words 400..402"},
           Row{empty, "its line has no moves"},
       }) {
    const Pin good = pin(t, "a6", Pin::Kind::kMove, {"a5"});
    const Decoding d = decoded(t, {good, row.pin});
    ASSERT_EQ(d.unheld.size(), 1u) << row.why;
    EXPECT_EQ(d.unheld[0].pin, 1u);
    EXPECT_EQ(d.unheld[0].why, row.why);
    EXPECT_NE(settled(d, good), nullptr) << row.why;
    EXPECT_GT(d.nodes.size(), 4u) << row.why;
  }
}

TEST(Pins, OfTwoOnOneWordTheFirstHolds) {
  const auto t = heard(kTalk);
  const Pin first = pin(t, "Bb5", Pin::Kind::kMove, {"Bc4"});
  const Pin second = pin(t, "Bb5 the", Pin::Kind::kNoMove);
  const Decoding d = decoded(t, {first, second});
  ASSERT_EQ(d.unheld.size(), 1u);
  EXPECT_EQ(d.unheld[0].pin, 1u);
  EXPECT_EQ(d.unheld[0].why, "it shares words with pins[0]");
  EXPECT_NE(settled(d, first), nullptr);
}

// A line pin speaks of one start position: starts from which it is illegal give way.
TEST(Pins, ALineDecidesTheStart) {
  const auto t = heard("We look at a few moves. White plays d4 and Black plays d5, then c4.");
  const Pin p = pin(t, "c4", Pin::Kind::kLine, {"d4", "d5", "c4"});
  auto d = decode(t, {.start = "", .side = std::nullopt, .pins = {p}});
  ASSERT_TRUE(d) << d.error().message;
  EXPECT_TRUE(d->unheld.empty());
  const Mention* m = settled(*d, p);
  ASSERT_NE(m, nullptr);
  EXPECT_EQ(line(*d, m->node), "d4 d5 c4");
}

}  // namespace
}  // namespace plyscribe::resolve
