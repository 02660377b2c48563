#include "review/reason.h"

#include <gtest/gtest.h>

#include "board/notation.h"
#include "hearing/lattice.h"
#include "transcript/transcript.h"

namespace plyscribe::review {
namespace {

// What is said of one mention after a line of moves.
struct Row {
  const char* line;
  const char* words;
  const char* move;  // that the words were taken for
  std::vector<const char*> alternatives;
  const char* reason;
};

TEST(Reason, SaysWhatDoesNotFitAndWhatElseItMayBe) {
  for (const Row& row : std::vector<Row>{
           {"e4 e5 Nf3 Nc6",
            "bishop b3",
            "Bd3",
            {"Be2"},
            "no bishop can go to b3 here; the letter may be d; it may also be Be2"},
           {"e4 e5 Nf3 Nc6",
            "bishop b4",
            "Bc4",
            {},
            "no bishop can go to b4 here; the letter may be c"},
           {"e4 e5 Nf3 Nc6", "d4", "d4", {"no move"}, "it may be only talk"},
           {"e4 e5 Nf3 Nc6", "d4", "d4", {"d3"}, "the digit may be 3 or 4"},
           {"e4 e5", "Nf3", "Nf3", {"Nf3"}, "it may belong to another place in the tree"},
           {"e4 e5", "Nf3", "Nf3", {}, "what is said after it does not bear it out"},
       }) {
    const auto transcript =
        *transcript::read_transcript(std::string("[0:00] ") + row.words + "\n", "words");
    const auto lattice = hearing::build_lattice(transcript);
    const Hearing hearing(lattice, transcript.words.size());
    resolve::Decoding d;
    resolve::Node root;
    root.position = board::Position::initial();
    d.nodes.push_back(root);
    const auto add = [&](board::Move m) {
      resolve::Node n;
      n.parent = static_cast<std::int32_t>(d.nodes.size()) - 1;
      n.move = m;
      n.position = d.nodes.back().position.after(m);
      d.nodes.push_back(n);
    };
    const auto line = board::parse_line(root.position, row.line);
    ASSERT_TRUE(line) << line.error().message;
    for (board::Move m : *line) add(m);
    add(*board::parse_san(d.nodes.back().position, row.move));
    resolve::Mention mention;
    mention.last_word = static_cast<std::uint32_t>(transcript.words.size());
    mention.act = resolve::Act::kPlay;
    mention.node = static_cast<std::int32_t>(d.nodes.size()) - 1;
    for (const char* san : row.alternatives) mention.alternatives.push_back({san, 0.2});
    EXPECT_EQ(reason(mention, d, hearing), row.reason) << row.words << " as " << row.move;

    d.nodes[d.nodes.size() - 2].unsaid = true;
    EXPECT_NE(reason(mention, d, hearing).find("it needs "), std::string::npos);
  }
}

TEST(Reason, IsNeverSilent) {
  const auto transcript = *transcript::read_transcript("[0:00] rook e1\n", "words");
  const auto lattice = hearing::build_lattice(transcript);
  const Hearing hearing(lattice, transcript.words.size());
  resolve::Decoding d;
  d.nodes.resize(1);
  d.nodes[0].position = board::Position::initial();
  resolve::Mention m;
  m.last_word = 2;
  EXPECT_FALSE(reason(m, d, hearing).empty());
  m.act = resolve::Act::kIdea;
  m.node = 0;
  m.alternatives.push_back({"Re1", 0.4});
  EXPECT_EQ(reason(m, d, hearing),
            "taken as an idea that was not played; Re1 may have been played");
  m.act = resolve::Act::kRevisit;
  EXPECT_FALSE(reason(m, d, hearing).empty());
}

}  // namespace
}  // namespace plyscribe::review
