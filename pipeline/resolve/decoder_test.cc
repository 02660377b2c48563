// A lesson decoded again with other pins is decoded as if for the first time.
#include "resolve/decoder.h"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>
#include <string>

#include "board/notation.h"

namespace plyscribe::resolve {
namespace {

// A lesson's first paragraphs: each test decodes them many times.
transcript::Transcript beginning_of(const std::string& name) {
  std::ifstream in(std::string(PLYSCRIBE_SOURCE_DIR) + "/corpus/lessons/" + name, std::ios::binary);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  const std::string all = bytes.str();
  const auto t = transcript::read_transcript(all.substr(0, all.find("\n\n[", 3000) + 1), name);
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
  const auto t = beginning_of("vienna-club/heard.txt");
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
  for (const std::vector<Pin>& pins :
       std::vector<std::vector<Pin>>{{early, late}, {late}, {late, early, bad}, {}}) {
    const auto again = decoder.decode({.start = "", .side = std::nullopt, .pins = pins});
    const auto fresh = decode(t, {.start = "", .side = std::nullopt, .pins = pins});
    ASSERT_TRUE(again && fresh);
    EXPECT_EQ(text(*again), text(*fresh)) << pins.size() << " pins";
  }
}

// Twenty moves in passing and thirty-two men: many mentions stand before the lesson's beginning.
TEST(Decoder, ALongListOfMenIsAStart) {
  const auto t = transcript::read_transcript(
      "[0:00] Last week there was e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 castles Be7 Re1 b5 Bb3 d6 c3 "
      "castles "
      "h3 Na5 Bc2 c5, and today there is something that has nothing at all to do with any of it, "
      "and "
      "so you may put away whatever you wrote down then and set up the men with me, one by one.\n\n"
      "[0:40] White has the king on g1, the queen on d1, rooks on a1 and e1, bishops on c1 and c2, "
      "knights on d2 and f3, pawns on a2, b2, c3, d4, e4, f2, g2 and h3. Black has the king on g8, "
      "the queen on d8, rooks on a8 and f8, bishops on c8 and e7, knights on c6 and f6, pawns on "
      "a6, "
      "b5, c5, d6, e5, f7, g7 and h7. White to move.\n\n"
      "[1:30] Nf1, Re8, Ng3, and he plays g6.\n",
      "men.txt");
  ASSERT_TRUE(t);
  const auto d = decode(*t, {});
  ASSERT_TRUE(d) << d.error().message;
  EXPECT_EQ(board::to_fen(d->start.position),
            "r1bq1rk1/4bppp/p1np1n2/1pp1p3/3PP3/2P2N1P/PPBN1PP1/R1BQR1K1 w - - 0 1");
}

TEST(Decoder, AnotherStartOrSideBeginsAnew) {
  const auto t = beginning_of("vienna-club/heard.txt");
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
