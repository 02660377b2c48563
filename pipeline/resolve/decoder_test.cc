// A lesson decoded again with other pins is decoded as if for the first time.
#include "resolve/decoder.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "board/notation.h"

namespace plyscribe::resolve {
namespace {

transcript::Transcript lesson(const std::string& name) {
  std::ifstream in(std::string(PLYSCRIBE_SOURCE_DIR) + "/corpus/lessons/" + name, std::ios::binary);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  const auto t = transcript::read_transcript(bytes.str(), name);
  EXPECT_TRUE(t) << name;
  return *t;
}

std::string text(const Decoding& d) {
  std::ostringstream out;
  out.precision(17);
  out << d.start.how << ' ' << board::to_fen(d.start.position) << ' ' << d.cost << '\n';
  for (const Node& n : d.nodes) {
    out << n.parent << ' ' << board::to_uci(n.move) << (n.unsaid ? " unsaid\n" : "\n");
  }
  for (const Mention& m : d.mentions) {
    out << m.first_word << ".." << m.last_word << ' ' << static_cast<int>(m.act) << ' ' << m.node
        << ' ' << m.idea << m.why << ' ' << m.as_heard << m.settled << ' ' << m.confidence;
    for (const Choice& c : m.alternatives) out << ' ' << c.san << ' ' << c.share;
    out << '\n';
  }
  for (const UnheldPin& p : d.unheld) out << p.pin << ' ' << p.why << '\n';
  return out.str();
}

TEST(Decoder, AgreesWithAFreshDecodeWhateverCameBefore) {
  const auto t = lesson("vienna-club/heard.txt");
  Decoder decoder(t);
  const auto first = decoder.decode({});
  ASSERT_TRUE(first) << first.error().message;
  EXPECT_EQ(text(*first), text(*decode(t, {})));

  // Pins at the mentions themselves, come and gone; one fails.
  const auto& mentions = first->mentions;
  ASSERT_GT(mentions.size(), 20u);
  const auto at = [&](std::size_t i, Pin::Kind kind, const std::string& san) {
    return Pin{mentions[i].first_word, mentions[i].last_word, kind, san, {}};
  };
  const Pin early = at(3, Pin::Kind::kNoMove, "");
  const Pin late = at(mentions.size() - 4, Pin::Kind::kMove, "h3");
  const Pin bad = at(mentions.size() / 2, Pin::Kind::kMove, "Qa8#");
  for (const std::vector<Pin>& pins : std::vector<std::vector<Pin>>{
           {early, late}, {late}, {late, early, bad}, {}}) {
    const auto again = decoder.decode({.start = "", .side = std::nullopt, .pins = pins});
    const auto fresh = decode(t, {.start = "", .side = std::nullopt, .pins = pins});
    ASSERT_TRUE(again && fresh);
    EXPECT_EQ(text(*again), text(*fresh)) << pins.size() << " pins";
  }
}

TEST(Decoder, AnotherStartOrSideBeginsAnew) {
  const auto t = lesson("vienna-club/heard.txt");
  Decoder decoder(t);
  ASSERT_TRUE(decoder.decode({}));
  const DecodeOptions given{.start = "e4 e5", .side = board::Color::kBlack, .pins = {}};
  const auto again = decoder.decode(given);
  ASSERT_TRUE(again);
  EXPECT_EQ(text(*again), text(*decode(t, given)));
  EXPECT_FALSE(decoder.decode({.start = "no such opening", .side = std::nullopt, .pins = {}}));
  EXPECT_EQ(text(*decoder.decode({})), text(*decode(t, {})));
}

}  // namespace
}  // namespace plyscribe::resolve
