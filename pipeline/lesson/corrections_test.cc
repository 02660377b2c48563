#include "lesson/corrections.h"

#include <gtest/gtest.h>

#include "tests/publish/sketch.h"

namespace plyscribe::lesson {
namespace {

using resolve::Act;
using tests::Sketch;

// Talk that names no move.
void talk(Sketch& s, double t, const std::string& words) {
  const std::size_t mentions = s.decoding.mentions.size();
  s.say(-1, t, words, {.act = Act::kLoose});
  s.decoding.mentions.resize(mentions);
}

std::vector<std::string> found(const Sketch& s) {
  std::vector<std::string> out;
  for (const Span& span : corrections(s.transcript, s.lesson())) out.push_back(span.heard);
  return out;
}

TEST(Corrections, StandBetweenTwoNamings) {
  Sketch s;
  s.say(0, 1, "bishop c5", {.act = Act::kIdea, .text = "c5"});
  talk(s, 3, "sorry");
  s.say(s.node(0, "Nf3"), 4, "knight f3");
  talk(s, 6, "and so on");
  EXPECT_EQ(found(s), (std::vector<std::string>{"bishop c5 sorry knight f3"}));
  const Span span = corrections(s.transcript, s.lesson()).at(0);
  EXPECT_EQ(span.t, 1);
  EXPECT_EQ(span.t_end, 6);
  EXPECT_EQ(span.first_word, 0u);
  EXPECT_EQ(span.last_word, 5u);
}

TEST(Corrections, TheFirstMayBeAWordThatNothingWasMadeOf) {
  Sketch s;
  talk(s, 1, "then Nc3 no excuse me");
  s.say(s.node(0, "Nf3"), 6, "Nf3");
  EXPECT_EQ(found(s), (std::vector<std::string>{"Nc3 no excuse me Nf3"}));
}

TEST(Corrections, MayLieInsideOneNaming) {
  Sketch s;
  s.say(s.node(0, "Nf3"), 1, "knight c3 sorry knight f3");
  EXPECT_EQ(found(s), (std::vector<std::string>{"knight c3 sorry knight f3"}));
}

TEST(Corrections, AnApologyAmongOtherTalkIsNone) {
  Sketch s;
  talk(s, 1, "sorry about the noise we begin with");
  s.say(s.node(0, "Nf3"), 9, "Nf3");
  talk(s, 10, "it is a good move and I am sorry that nobody ever told me of it before");
  s.say(s.node(1, "d5"), 30, "d5");
  EXPECT_TRUE(found(s).empty());
}

}  // namespace
}  // namespace plyscribe::lesson
