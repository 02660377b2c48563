#include "transcript/nbest.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace plyscribe::transcript {
namespace {

std::string attach(std::vector<const char*> heard, const char* other) {
  std::vector<Word> words;
  for (const char* text : heard) words.emplace_back().text = text;
  attach_alternative({other, 0.5}, words);
  std::string s;
  for (const Word& w : words) {
    s += (s.empty() ? "" : " ") + w.text;
    for (const Alternative& a : w.alternatives) s += "|" + a.text;
  }
  return s;
}

TEST(NBest, ReadingsLieBesideTheirWords) {
  EXPECT_EQ(attach({"knight", "d", "five", "takes"}, "night be five takes"),
            "knight|night d|be five takes");
  EXPECT_EQ(attach({"knight", "d5", "takes"}, "night be five takes."),
            "knight|night d5|be five takes");
  EXPECT_EQ(attach({"before", "he", "goes"}, "b four he goes"), "before|b four he goes");
  EXPECT_EQ(attach({"b", "four", "he"}, "before he"), "b|before four he");
  EXPECT_EQ(attach({"a", "b", "c"}, "a c"), "a b c");
  EXPECT_EQ(attach({"a", "c"}, "a b c"), "a c");
  EXPECT_EQ(attach({"Takes"}, "takes"), "Takes");
  EXPECT_EQ(attach({"a"}, ""), "a");
  EXPECT_EQ(attach({}, "a"), "");
}

TEST(NBest, AlternativesAreTidied) {
  const auto tidy = tidy_alternatives(
      {{" See,", 0.2}, {"c", 0.9}, {"see", 0.1}, {"sea", 0.6}, {"See", 0.4}, {".", 0.4}}, "C");
  std::string s;
  for (const Alternative& a : tidy) s += fmt::format("{}:{:g} ", a.text, a.confidence);
  EXPECT_EQ(s, "sea:0.6 See:0.4 see:0.1 ");
}

}  // namespace
}  // namespace plyscribe::transcript
