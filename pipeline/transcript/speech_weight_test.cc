#include "transcript/speech_weight.h"

#include <gtest/gtest.h>

namespace plyscribe::transcript {
namespace {

double weight_of(const char* text, const char* trail = "") {
  Word w;
  w.text = text;
  w.trail = trail;
  return speech_weight(w);
}

TEST(SpeechWeight, LongWordsAndMarksTakeTime) {
  EXPECT_LT(weight_of("a"), weight_of("knight"));
  EXPECT_LT(weight_of("knight"), weight_of("knight", ","));
  EXPECT_EQ(weight_of("knight", "\""), weight_of("knight"));
  EXPECT_EQ(weight_of("caf\xC3\xA9"), weight_of("cafe"));
  EXPECT_LT(weight_of(std::string(10'000, 'a').c_str()), 50) << "no word lasts for ever";
}

TEST(SpeechWeight, WrittenMovesTakeTheTimeOfTheirWords) {
  EXPECT_EQ(weight_of("Nf3"), weight_of("knight") + weight_of("f3"));
  EXPECT_EQ(weight_of("Bxc5+"),
            weight_of("bishop") + weight_of("takes") + weight_of("c5") + weight_of("check"));
  EXPECT_EQ(weight_of("O-O"), weight_of("castles"));
  EXPECT_EQ(weight_of("0-0-0"), weight_of("castles"));
}

}  // namespace
}  // namespace plyscribe::transcript
