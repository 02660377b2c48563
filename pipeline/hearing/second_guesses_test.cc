// What the recogniser thought of besides. The talk is invented; that "night" and "knight" sound
// alike is common knowledge, that "d" and "b" are confused is told in HOW-LESSONS-SOUND.md.
#include "hearing/second_guesses.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "board/notation.h"
#include "hearing/lattice.h"

namespace plyscribe::hearing {
namespace {

// One word after another, a second each; `guesses`: the JSON of the alternatives of word `at`.
Lattice lattice_of(const std::vector<std::string>& words, std::size_t at,
                   const std::string& guesses) {
  std::string json;
  for (std::size_t i = 0; i < words.size(); ++i) {
    json += (i == 0 ? "[" : ",") + std::string(R"({"word":")") + words[i] + R"(","start":)" +
            std::to_string(i) + R"(,"end":)" + std::to_string(i + 1) + R"(,"confidence":0.6)";
    if (i == at && !guesses.empty()) json += R"(,"alternatives":)" + guesses;
    json += "}";
  }
  const auto t = transcript::read_transcript(json + "]", "lesson.json");
  EXPECT_TRUE(t) << t.error().message;
  return build_lattice(*t);
}

// What the move costs at best in a reading over these words; kNever if there is none.
float cost(const Lattice& lattice, std::uint32_t first, std::uint32_t last, const char* line,
           const char* san) {
  board::Position p = board::Position::initial();
  const auto before = board::parse_line(p, line);
  EXPECT_TRUE(before);
  for (const board::Move m : *before) p = p.after(m);
  const auto move = board::parse_san(p, san);
  EXPECT_TRUE(move);
  float best = kNever;
  for (const Reading& r : lattice.readings) {
    if (r.first != first || r.last != last) continue;
    best = std::min(best, match(r, p, *move, p.gives_check(*move)).cost);
  }
  return best;
}

const std::vector<std::string> kTalk = {"then", "Nf3", "Nc6", "and", "Bxh4", "e5", "d4", "now"};

TEST(SecondGuesses, AreReadInPlace) {
  const Lattice plain = lattice_of(kTalk, 0, "");
  const Lattice told = lattice_of(kTalk, 4, R"([{"word":"Bb5","confidence":0.3}])");
  EXPECT_GE(cost(plain, 4, 5, "e4 e5 Nf3 Nc6", "Bb5"), 6);
  EXPECT_LT(cost(told, 4, 5, "e4 e5 Nf3 Nc6", "Bb5"), 1.5F);
  EXPECT_EQ(told.tokens.size(), plain.tokens.size());  // words and times are those heard first
}

TEST(SecondGuesses, CostWhatTheyAreLessLikely) {
  const auto with = [](const char* confidence) {
    return cost(
        lattice_of(kTalk, 4, R"([{"word":"Bb5","confidence":)" + std::string(confidence) + "}]"), 4,
        5, "e4 e5 Nf3 Nc6", "Bb5");
  };
  EXPECT_NEAR(with("0.06") - with("0.3"), 1.609F, 1e-3);  // log(0.3 / 0.06)
}

TEST(SecondGuesses, OfNeighboursBelongTogetherOrNot) {
  // "night" for knight, "f" and "three" heard right: one guess alone.
  std::vector<std::string> words = {"e4", "e5", "the", "bike", "f3", "and", "Nc6", "d4"};
  EXPECT_LT(cost(lattice_of(words, 3, R"(["knight"])"), 3, 5, "e4 e5", "Nf3"), 1.5F);
  // More words than one in place of one.
  words = {"e4", "e5", "Nf3", "Nc6", "then", "shopping", "a6", "castles"};
  EXPECT_LT(cost(lattice_of(words, 5, R"(["bishop b5"])"), 5, 6, "e4 e5 Nf3 Nc6", "Bb5"), 1.5F);
}

TEST(SecondGuesses, NoneAreMadeUp) {
  const auto t = transcript::read_transcript("[0:01] Then Nf3, Nc6, d4, d5.\n", "lesson.txt");
  ASSERT_TRUE(t);
  EXPECT_TRUE(second_guesses(*t, tokens_of(*t), Script::kWritten).empty());
}

}  // namespace
}  // namespace plyscribe::hearing
