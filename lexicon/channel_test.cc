#include "lexicon/channel.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "lexicon/written.h"

namespace plyscribe::lexicon {
namespace {

std::string said(const Hearing& h) {
  std::string out;
  for (const Unit u : h.said()) {
    if (!out.empty()) out += ' ';
    out += unit_name(u);
  }
  return out;
}

const Hearing* find(std::string_view heard, std::string_view units) {
  for (const Hearing& h : heard_as(heard)) {
    if (said(h) == units) return &h;
  }
  return nullptr;
}

TEST(Channel, KnowsTheWellKnownMishearings) {
  struct Row {
    std::string_view heard, units;
  };
  const Row rows[] = {
      {"they should", "bishop"},
      {"before", "b 4"},
      {"night", "knight"},
      {"nine", "knight"},
      {"bishop", "bishop"},
      {"green", "queen"},
      {"the", "e"},
      {"to", "2"},
      {"for", "4"},
      {"she", "g"},
      {"age", "h"},
      {"pond", "pawn"},
  };
  for (const Row& row : rows) {
    const Hearing* h = find(row.heard, row.units);
    ASSERT_NE(h, nullptr) << row.heard << " for " << row.units;
    EXPECT_GE(h->count, 2u) << row.heard;
    EXPECT_GE(h->total, h->count) << row.heard;
    EXPECT_GT(h->cost, 0) << row.heard;
    EXPECT_GT(h->background, 1) << row.heard;
  }
}

TEST(Channel, PrefersAMoveToTalkWhereTalkHardlySaysIt) {
  const Hearing* bishop = find("bishop", "bishop");
  ASSERT_NE(bishop, nullptr);
  EXPECT_GT(bishop->background - bishop->cost, 5);
  const Hearing* to = find("to", "2");
  ASSERT_NE(to, nullptr);
  EXPECT_LT(to->background - to->cost, bishop->background - bishop->cost);
}

TEST(Channel, GivesTheCheapestFirstAndNothingForTheUnknown) {
  EXPECT_TRUE(heard_as("zwieback").empty());
  EXPECT_FALSE(heard_as("").empty()) << "some units are not heard at all";
  for (std::size_t i = 1; i < all_hearings().size(); ++i) {
    const Hearing &a = all_hearings()[i - 1], &b = all_hearings()[i];
    ASSERT_TRUE(a.heard < b.heard || (a.heard == b.heard && a.cost <= b.cost)) << b.heard;
  }
}

TEST(Channel, SumsToAtMostOneForEachUnitSequence) {
  std::map<std::string, double> sum;
  for (const Hearing& h : all_hearings()) {
    ASSERT_GE(h.unit_count, 1);
    ASSERT_LE(h.word_count, 3);
    sum[said(h)] += std::exp(-static_cast<double>(h.cost));
  }
  for (const auto& [units, p] : sum) EXPECT_LE(p, 1.02) << units;
}

TEST(Channel, NamesItsUnits) {
  for (const std::string_view name :
       {"knight", "bishop", "rook",  "queen", "king",    "pawn", "a",  "b",     "c",    "d",
        "e",      "f",      "g",     "h",     "1",       "2",    "3",  "4",     "5",    "6",
        "7",      "8",      "takes", "check", "castles", "to",   "on", "white", "black"}) {
    const auto u = unit_named(name);
    ASSERT_TRUE(u) << name;
    EXPECT_EQ(unit_name(*u), name);
  }
  EXPECT_FALSE(unit_named("zwieback"));
}

TEST(PhoneCosts, SumToOneForEachPhone) {
  const PhoneCosts& c = phone_costs();
  for (Phone s = 0; s < kPhoneCount; ++s) {
    double sum = std::exp(-static_cast<double>(c.lost[s]));
    for (Phone h = 0; h < kPhoneCount; ++h) {
      sum += std::exp(-static_cast<double>(c.as[s][h]));
      EXPECT_LE(c.as[s][s], c.as[s][h]) << phone_name(s) << ' ' << phone_name(h);
    }
    EXPECT_NEAR(sum, 1, 0.05) << phone_name(s);
  }
}

TEST(SoundCost, OrdersWordsByLikeness) {
  const auto cost = [](std::string_view a, std::string_view b) {
    return sound_cost(pronounce(a)[0], pronounce(b)[0]);
  };
  EXPECT_LT(cost("knight", "night"), cost("knight", "nice"));
  EXPECT_LT(cost("knight", "nine"), cost("knight", "bishop"));
  EXPECT_LT(cost("pawn", "pond"), cost("pawn", "rook"));
  EXPECT_LT(cost("b4", "before"), cost("d5", "before"));
  EXPECT_EQ(sound_cost({}, {}), 0);
}

// The whole table of edits by plain recursion must agree.
float by_recursion(std::span<const Phone> said, std::span<const Phone> heard) {
  const PhoneCosts& c = phone_costs();
  if (said.empty() && heard.empty()) return 0;
  float best = 1e9F;
  if (!said.empty()) best = std::min(best, c.lost[said[0]] + by_recursion(said.subspan(1), heard));
  if (!heard.empty())
    best = std::min(best, c.put_in[heard[0]] + by_recursion(said, heard.subspan(1)));
  if (!said.empty() && !heard.empty())
    best =
        std::min(best, c.as[said[0]][heard[0]] + by_recursion(said.subspan(1), heard.subspan(1)));
  return best;
}

TEST(SoundCost, AgreesWithRecursion) {
  for (const std::string_view a : {"bishop", "f3", "e", "castles"}) {
    for (const std::string_view b : {"they", "should", "at", "before", "x"}) {
      const Phones x = pronounce(a)[0], y = pronounce(b)[0];
      EXPECT_NEAR(sound_cost(x, y), by_recursion(x, y), 1e-3) << a << ' ' << b;
    }
  }
}

TEST(Background, MakesCommonWordsCheap) {
  EXPECT_LT(background_cost("the"), 4);
  EXPECT_LT(background_cost("before"), background_cost("bishop"));
  EXPECT_GT(background_cost("zwiebacks"), 14);
}

TEST(Written, SumsToAtMostOneAndKeepsRhymesNear) {
  const WrittenCosts& c = written_costs();
  const auto at_most_one = [](const auto& row) {
    double sum = 0;
    for (const float cost : row)
      sum += cost == kNotWritten ? 0 : std::exp(-static_cast<double>(cost));
    return sum <= 1.005;
  };
  for (std::size_t i = 0; i < 8; ++i) {
    EXPECT_TRUE(at_most_one(c.file[i])) << i;
    EXPECT_TRUE(at_most_one(c.rank[i])) << i;
    EXPECT_LT(c.file[i][i], 0.3) << i;
    EXPECT_LT(c.rank[i][i], 0.3) << i;
  }
  for (const auto& row : c.piece) EXPECT_TRUE(at_most_one(row));
  EXPECT_LT(c.file[1][3], c.file[1][0]) << "b is rather written as d than as a";
  EXPECT_LT(c.file[7][0], c.file[7][3]) << "h is rather written as a than as d";
  EXPECT_LT(c.capture_lost, c.capture_invented);
  EXPECT_LT(written_cost("file", "a", "8"), kNotWritten);
  EXPECT_EQ(written_cost("file", "a", "q"), kNotWritten);
}

}  // namespace
}  // namespace plyscribe::lexicon
