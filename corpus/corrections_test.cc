// The oracle on lessons of the corpus: its pins do what it says they do.
#include "corpus/corrections.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

namespace plyscribe::corpus {
namespace {

const std::string kLessons = std::string(PLYSCRIBE_SOURCE_DIR) + "/corpus/lessons/";

transcript::Transcript read(const std::string& name) {
  std::ifstream in(kLessons + name, std::ios::binary);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  const auto t = transcript::read_transcript(bytes.str(), name);
  EXPECT_TRUE(t) << name;
  return *t;
}

std::set<std::string> edges(const resolve::Decoding& d) {
  std::set<std::string> out;
  board::Position p = board::Position::initial();
  for (board::Move m : d.start.moves) {
    out.insert(edge_key(p, m));
    p = p.after(m);
  }
  for (std::size_t n = 1; n < d.nodes.size(); ++n) {
    const auto parent = static_cast<std::size_t>(d.nodes[n].parent);
    out.insert(edge_key(d.nodes[parent].position, d.nodes[n].move));
  }
  return out;
}

TEST(Corrections, LeadToTheGoldTree) {
  for (const char* file : {"vienna-club/heard.txt", "rook-behind-the-pawn/heard.txt"}) {
    const std::string name = file;
    const auto gold = load_gold(kLessons + name.substr(0, name.find('/')));
    ASSERT_TRUE(gold) << gold.error().message;
    const auto t = read(name);
    const auto c = correct(*gold, t);
    ASSERT_TRUE(c) << c.error().message;
    EXPECT_EQ(c->spoken, gold->spoken.size());
    EXPECT_EQ(c->decode_seconds.size(), c->fixes.size() + 1) << name;
    ASSERT_TRUE(c->left.empty()) << name << ": " << c->left[0];

    // A fresh decode with the pins, judged edge by edge.
    const auto d = resolve::decode(t, {c->start, std::nullopt, c->pins});
    ASSERT_TRUE(d) << d.error().message;
    EXPECT_TRUE(d->unheld.empty()) << name << ": " << d->unheld[0].why;
    const std::set<std::string> got = edges(*d);
    for (const std::string& edge : gold->spoken) EXPECT_EQ(got.count(edge), 1u) << edge;
    for (const std::string& edge : got) {
      EXPECT_EQ(gold->spoken.count(edge) + gold->free.count(edge), 1u) << edge;
    }
  }
}

TEST(Corrections, GoldFilesThatCannotBeReadAreNamed) {
  EXPECT_FALSE(load_gold_file("/no/gold.json"));
  const std::string path = kLessons + "vienna-club/gold-times-slt.json";
  const auto gold = load_gold_file(path);
  ASSERT_FALSE(gold);
  EXPECT_EQ(gold.error().message.rfind(path + ":1: expected a gold tree", 0), 0u)
      << gold.error().message;
}

}  // namespace
}  // namespace plyscribe::corpus
