#include "lexicon/spell_number.h"

#include <algorithm>
#include <array>

namespace plyscribe::lexicon {
namespace {

constexpr std::array<std::string_view, 20> kSmall = {
    "zero",     "one",     "two",     "three",     "four",     "five",    "six",
    "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",  "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};
constexpr std::array<std::string_view, 10> kTens = {
    "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"};

std::string join(std::string head, std::string_view tail) {
  if (tail.empty()) return head;
  if (!head.empty()) head += ' ';
  return head.append(tail);
}

// In full; nothing for 0.
std::string in_full(std::size_t n) {
  if (n == 0) return {};
  if (n < 20) return std::string(kSmall[n]);
  if (n < 100) return join(std::string(kTens[n / 10]), in_full(n % 10));
  if (n < 1000) return join(std::string(kSmall[n / 100]) + " hundred", in_full(n % 100));
  return join(in_full(n / 1000) + " thousand", in_full(n % 1000));
}

// Four digits as a year, in two halves; nothing where nobody says it so.
std::string in_halves(std::size_t n) {
  const std::size_t high = n / 100, low = n % 100;
  if (n < 1000 || n > 9999 || high % 10 == 0) return {};
  if (low == 0) return in_full(high) + " hundred";
  if (low < 10) return in_full(high) + " oh " + in_full(low);
  return in_full(high) + ' ' + in_full(low);
}

}  // namespace

std::vector<std::string> spell_number(std::string_view digits) {
  std::vector<std::string> out;
  const auto add = [&out](std::string s) {
    if (!s.empty() && std::find(out.begin(), out.end(), s) == out.end())
      out.push_back(std::move(s));
  };
  if (digits.size() <= 6 && !digits.starts_with('0')) {
    std::size_t n = 0;
    for (const char c : digits) n = n * 10 + static_cast<std::size_t>(c - '0');
    const bool year = n >= 1100 && n < 2000;
    if (year) add(in_halves(n));
    add(in_full(n));
    if (n >= 2010 && n < 2100) add("twenty " + in_full(n % 100));
    if (!year) add(in_halves(n));
  }
  std::string single;
  for (const char c : digits)
    single = join(std::move(single), kSmall[static_cast<std::size_t>(c - '0')]);
  add(std::move(single));
  return out;
}

}  // namespace plyscribe::lexicon
