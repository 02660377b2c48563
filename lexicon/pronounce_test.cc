#include "lexicon/pronounce.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <string>

#include "lexicon/spell_number.h"

namespace plyscribe::lexicon {
namespace {

std::string all_ways(std::string_view word) {
  std::string out;
  for (const Phones& way : pronounce(word)) {
    if (!out.empty()) out += " / ";
    out += write_phones(way);
  }
  return out;
}

struct Row {
  std::string_view word, ways;
};

// Copied from cmudict-en-us.dict as Debian's pocketsphinx-en-us 0.8+5prealpha ships it.
TEST(Pronounce, GivesTheEntriesOfTheCmuDictionary) {
  const Row rows[] = {
      {"knight", "N AY T"},
      {"bishop", "B IH SH AH P"},
      {"rook", "R UH K"},
      {"queen", "K W IY N"},
      {"king", "K IH NG"},
      {"pawn", "P AO N"},
      {"takes", "T EY K S"},
      {"check", "CH EH K"},
      {"castles", "K AE S AH L Z"},
      {"before", "B IH F AO R / B IY F AO R"},
      {"defy", "D IH F AY"},
      {"the", "DH AH / DH IY"},
      {"they", "DH EY"},
      {"should", "SH UH D"},
      {"it's", "IH T S"},
      {"zwieback", "Z W IY B AE K"},
      {"eight", "EY T"},
      {"seven", "S EH V AH N"},
  };
  for (const Row& row : rows) EXPECT_EQ(all_ways(row.word), row.ways) << row.word;
}

TEST(Pronounce, SpellsSquaresDigitsAndLetters) {
  const Row rows[] = {
      {"e", "IY"},
      {"a", "EY / AH"},
      {"h", "EY CH"},
      {"5", "F AY V"},
      {"f5", "EH F F AY V"},
      {"B5", "B IY F AY V"},
      {"86", "EY T IY S IH K S / EY T S IH K S"},
      {"gh", "JH IY EY CH"},
      {"xf", "EH K S EH F"},
      {"bishopg5", "B IH SH AH P JH IY F AY V"},
      {"c-pawn", "S IY P AO N"},
      {"Nf3+", "EH N EH F TH R IY"},
  };
  for (const Row& row : rows) EXPECT_EQ(all_ways(row.word), row.ways) << row.word;
}

TEST(Pronounce, ReadsPossessivesCaseAccentsAndMarks) {
  const Row rows[] = {
      {"Bishop's", "B IH SH AH P S"}, {"bishops'", "B IH SH AA P S"},
      {"(Knight),", "N AY T"},        {"it\u2019s", "IH T S"},
      {"R\u00e9ti", "R EH T IY"},     {"white's", "W AY T S / HH W AY T S"},
  };
  for (const Row& row : rows) EXPECT_EQ(all_ways(row.word), row.ways) << row.word;
}

TEST(Pronounce, GuessesWordsOutsideTheDictionary) {
  const Row rows[] = {
      {"nimzo", "N IH M Z OW"},
      {"kasp", "K AE S P"},
      {"brackwater", "B R AE K W AO T ER"},
  };
  for (const Row& row : rows) EXPECT_EQ(all_ways(row.word), row.ways) << row.word;
}

TEST(Pronounce, FindsNothingOnlyWhereNothingIsSaid) {
  EXPECT_TRUE(pronounce("").empty());
  EXPECT_TRUE(pronounce("...").empty());
  EXPECT_TRUE(pronounce("\u2014").empty());
  EXPECT_TRUE(pronounce("\xff\xc3").empty());
  for (const std::string_view word : {"x", "'", "a-", "zzyzx", "0", "0000", "12345678901", "qqq'"})
    EXPECT_EQ(pronounce(word).empty(), word == "'") << word;
}

TEST(Pronounce, IsFast) {
  const auto begin = std::chrono::steady_clock::now();
  for (int i = 0; i < 1000; ++i) EXPECT_FALSE(pronounce(i % 2 ? "knight" : "zukertortian").empty());
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::milliseconds(500));
}

TEST(Phones, WriteAndReadBack) {
  for (Phone p = 0; p < kPhoneCount; ++p) EXPECT_EQ(phone_named(phone_name(p)), p);
  EXPECT_FALSE(phone_named("XX"));
  EXPECT_EQ(write_phones(read_phones("EH F XX F AY V")), "EH F F AY V");
}

TEST(SpellNumber, SaysYearsBothWays) {
  using Ways = std::vector<std::string>;
  EXPECT_EQ(spell_number("8"), Ways{"eight"});
  EXPECT_EQ(spell_number("0"), Ways{"zero"});
  EXPECT_EQ(spell_number("12"), (Ways{"twelve", "one two"}));
  EXPECT_EQ(spell_number("2011"),
            (Ways{"two thousand eleven", "twenty eleven", "two zero one one"}));
  EXPECT_EQ(spell_number("1907"),
            (Ways{"nineteen oh seven", "one thousand nine hundred seven", "one nine zero seven"}));
}

}  // namespace
}  // namespace plyscribe::lexicon
