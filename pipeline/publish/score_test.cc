#include "publish/score.h"

#include <gtest/gtest.h>

#include <string>

namespace plyscribe::publish {
namespace {

// After 1 e4: e5 said, c5 unsaid; 1... e5 2 Nf3 said.
constexpr const char* kGold = R"({
  "start_moves": ["e4"],
  "edges": [
    {"key": "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq", "uci": "e7e5",
     "path": ["e5"], "unsaid": false},
    {"key": "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq", "uci": "c7c5",
     "path": ["c5"], "unsaid": true},
    {"key": "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq", "uci": "g1f3",
     "path": ["e5", "Nf3"], "unsaid": false}
  ]})";

std::string scored(const std::string& gold_json, const std::string& pgn) {
  const auto gold = read_gold(gold_json, "gold.json");
  if (!gold) return gold.error().message;
  const auto games = read_pgn(pgn, "out.pgn");
  if (!games) return games.error().message;
  return score_line(score(*gold, *games));
}

TEST(Score, CountsEdgesOnceAndUnsaidAndStartMovesNotAtAll) {
  struct Row {
    const char *pgn, *line;
  };
  for (const Row& row : {
           Row{"1. e4 e5 2. Nf3 *", "P 100.0  R 100.0  F1 100.0  (gold 2, hit 2, extra 0, free 1)"},
           Row{"1. e4 e5 (1... c5) 2. Nf3 *",
               "P 100.0  R 100.0  F1 100.0  (gold 2, hit 2, extra 0, free 2)"},
           Row{"1. e4 e5 2. Nf3 1-0 1. e4 e5 *",
               "P 100.0  R 100.0  F1 100.0  (gold 2, hit 2, extra 0, free 1)"},
           Row{"1. e4 e5 (1... d5) *", "P 50.0  R 50.0  F1 50.0  (gold 2, hit 1, extra 1, free 1)"},
           Row{"1. d4 *", "P 0.0  R 0.0  F1 0.0  (gold 2, hit 0, extra 1, free 0)"},
           Row{"*", "P 0.0  R 0.0  F1 0.0  (gold 2, hit 0, extra 0, free 0)"},
           // A position with other clocks and another way there is the same position.
           Row{"1. Nf3 Nf6 2. Ng1 Ng8 3. e4 e5 *",
               "P 20.0  R 50.0  F1 28.6  (gold 2, hit 1, extra 4, free 1)"},
       }) {
    EXPECT_EQ(scored(kGold, row.pgn), row.line) << row.pgn;
  }
}

TEST(Score, ListsWhatWasMissedAndWhatIsExtra) {
  const Score s = score(*read_gold(kGold, "gold"), *read_pgn("1. e4 e5 2. Nc3 *", "out"));
  ASSERT_EQ(s.missed.size(), 1u);
  EXPECT_EQ(s.missed[0], "e5 Nf3");
  ASSERT_EQ(s.extra.size(), 1u);
  EXPECT_EQ(s.extra[0].san, "Nc3");
  EXPECT_EQ(s.extra[0].fen, "rnbqkbnr/pppp1ppp/8/4p3/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2");
}

TEST(Score, RoundsTiesUp) {
  Score s;
  s.gold = 16;
  s.hit = 1;  // 6.25 %
  s.extra.resize(15);
  EXPECT_EQ(score_line(s), "P 6.3  R 6.3  F1 6.3  (gold 16, hit 1, extra 15, free 0)");
}

TEST(ReadGold, NamesWhatIsNoGoldTree) {
  EXPECT_EQ(scored("", "*"), "gold.json:1: expected JSON");
  EXPECT_EQ(scored("{\n\"edges\"}", "*"), "gold.json:2: expected JSON");
  for (const char* bad : {"[]", "{}", R"({"edges": [{"key": 1}]})"}) {
    EXPECT_EQ(scored(bad, "*"),
              "gold.json:1: expected a gold tree with edges of key, uci, path and unsaid")
        << bad;
  }
}

}  // namespace
}  // namespace plyscribe::publish
