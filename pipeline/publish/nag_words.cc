#include "publish/nag_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string_view>

namespace plyscribe::publish {
namespace {

struct Row {
  int nag;
  std::string_view words;
};

// From 14 to 135 the even number is White's and the odd one Black's.
constexpr Row kRows[] = {
    {1, "good move"},
    {2, "mistake"},
    {3, "very good move"},
    {4, "blunder"},
    {5, "interesting"},
    {6, "dubious"},
    {7, "forced"},
    {8, "the only move"},
    {10, "drawish"},
    {11, "equal, quiet"},
    {12, "equal, active"},
    {13, "unclear"},
    {14, "White is slightly better"},
    {15, "Black is slightly better"},
    {16, "White is better"},
    {17, "Black is better"},
    {18, "White is winning"},
    {19, "Black is winning"},
    {20, "White is crushing"},
    {21, "Black is crushing"},
    {22, "White is in zugzwang"},
    {23, "Black is in zugzwang"},
    {36, "White has the initiative"},
    {37, "Black has the initiative"},
    {40, "White has the attack"},
    {41, "Black has the attack"},
    {42, "White has too little compensation"},
    {43, "Black has too little compensation"},
    {44, "White has compensation"},
    {45, "Black has compensation"},
    {46, "White has more than enough compensation"},
    {47, "Black has more than enough compensation"},
    {132, "White has counterplay"},
    {133, "Black has counterplay"},
};

}  // namespace

std::string nag_words(int nag) {
  const auto* const row =
      std::find_if(std::begin(kRows), std::end(kRows), [&](const Row& r) { return r.nag == nag; });
  return row == std::end(kRows) ? fmt::format("${}", nag) : std::string(row->words);
}

std::string_view advice_words(lesson::Advice advice) {
  switch (advice) {
    case lesson::Advice::kRecommended:
      return "recommended";
    case lesson::Advice::kPlayable:
      return "playable";
    case lesson::Advice::kAvoided:
      return "to be avoided";
    case lesson::Advice::kForCompleteness:
      return "for completeness";
    case lesson::Advice::kNone:
      break;
  }
  return "";
}

}  // namespace plyscribe::publish
