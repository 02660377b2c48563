// An explanation agrees with the decode that it explains.
#include "resolve/explain.h"

#include <gtest/gtest.h>

#include <string>

namespace plyscribe::resolve {
namespace {

// One sentence to a stamp, so that each has a time of its own.
transcript::Transcript lesson() {
  const auto t = transcript::read_transcript(
      "[0:01] White plays Nf3 and Black plays Nc6.\n\n[0:10] Then Bb5, and a6 is the question.\n\n"
      "[0:20] People dream of Ng5 here.\n\n[0:30] The bishop goes back, Ba4, and Nf6.\n",
      "lesson.txt");
  EXPECT_TRUE(t);
  return *t;
}

const DecodeOptions kOptions{.start = "e4 e5", .side = board::Color::kWhite, .pins = {}};

TEST(Explain, TermsAddUpAndOneIsChosen) {
  const auto t = lesson();
  Decoder decoder(t);
  const auto decoded = decoder.decode(kOptions);
  ASSERT_TRUE(decoded);
  const auto mentions = explain(decoder, t, 0, 60);
  ASSERT_GE(mentions.size(), 5u);
  for (const MentionExplained& m : mentions) {
    ASSERT_FALSE(m.weighed.empty()) << m.words;
    EXPECT_FALSE(m.readings.empty()) << m.words;
    int chosen = 0;
    double shares = 0;
    for (const WeighedPlacement& p : m.weighed) {
      float terms = 0;
      for (const Term& term : p.terms) terms += term.gain();
      float groups = 0;
      for (float g : p.by_group) groups += g;
      EXPECT_NEAR(terms, p.gain, 1e-3) << m.words << ' ' << p.move;
      EXPECT_NEAR(groups, p.gain, 1e-3) << m.words << ' ' << p.move;
      chosen += p.chosen ? 1 : 0;
      shares += p.share;
    }
    EXPECT_EQ(chosen, 1) << m.words;
    EXPECT_NEAR(shares, 1, 1e-6) << m.words;
  }
}

// The share of the winner some words on is the share that the decode reports.
TEST(Explain, OutcomesAgreeWithTheShares) {
  const auto t = lesson();
  Decoder decoder(t);
  const auto decoded = decoder.decode(kOptions);
  ASSERT_TRUE(decoded);
  int compared = 0;
  for (const MentionExplained& m : explain(decoder, t, 0, 60)) {
    int won = 0;
    std::array<double, 3> sum{};
    for (const Outcome& o : m.outcomes) {
      for (std::size_t k = 0; k < 3; ++k) sum[k] += o.share[k];
      won += o.won ? 1 : 0;
      for (const Mention& d : decoded->mentions) {
        if (!o.won || d.first_word != m.first_word || d.last_word != m.last_word) continue;
        EXPECT_NEAR(o.share[1], d.share, 1e-9) << m.words;
        ++compared;
      }
    }
    EXPECT_EQ(won, 1) << m.words;
    for (double s : sum) EXPECT_NEAR(s, 1, 1e-9) << m.words;
  }
  EXPECT_GE(compared, 5);
}

TEST(Explain, ATimeChoosesTheMentionsThere) {
  const auto t = lesson();
  Decoder decoder(t);
  ASSERT_TRUE(decoder.decode(kOptions));
  const double at = t.words[8].start;  // "Bb5,"
  const auto one = explain(decoder, t, at, at + 0.001);
  ASSERT_EQ(one.size(), 1u);
  EXPECT_EQ(one[0].words, "Bb5,");
  EXPECT_EQ(one[0].cursor, "Nf3 Nc6");
  const auto talk = explain(decoder, t, t.words[0].start, t.words[0].start + 0.001);
  ASSERT_EQ(talk.size(), 1u);
  EXPECT_EQ(talk[0].words, "White");
  EXPECT_EQ(talk[0].cursor, "");
  EXPECT_TRUE(explain(decoder, t, 4000, 4001).empty());
}

TEST(Explain, PinnedWordsAreSettled) {
  const auto t = lesson();
  Decoder decoder(t);
  DecodeOptions options = kOptions;
  options.pins = {{8, 9, Pin::Kind::kMove, "Bc4", {}}};
  ASSERT_TRUE(decoder.decode(options));
  const auto m = explain(decoder, t, t.words[8].start, t.words[8].start + 0.001);
  ASSERT_EQ(m.size(), 1u);
  EXPECT_TRUE(m[0].settled);
  EXPECT_TRUE(m[0].weighed.empty());
  ASSERT_FALSE(m[0].outcomes.empty());
  EXPECT_EQ(m[0].outcomes[0].what, "Nf3 Nc6 Bc4");
  const std::string text = write_explanation(m);
  EXPECT_NE(text.find("Settled by a person's pin"), std::string::npos) << text;
}

TEST(Explain, ChangesNothing) {
  const auto t = lesson();
  Decoder decoder(t);
  const auto before = decoder.decode(kOptions);
  const std::string once = write_explanation(explain(decoder, t, 0, 60));
  EXPECT_EQ(write_explanation(explain(decoder, t, 0, 60)), once);
  DecodeOptions options = kOptions;
  options.pins = {{8, 9, Pin::Kind::kMove, "Bc4", {}}};
  ASSERT_TRUE(decoder.decode(options));
  const auto after = decoder.decode(kOptions);
  ASSERT_TRUE(before && after);
  EXPECT_EQ(before->cost, after->cost);
  EXPECT_EQ(write_explanation(explain(decoder, t, 0, 60)), once);
}

}  // namespace
}  // namespace plyscribe::resolve
