#include "transcript/clock.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

namespace plyscribe::transcript {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::size_t digits(std::string_view s, std::size_t i) {
  const std::size_t first = i;
  while (i < s.size() && is_digit(s[i])) ++i;
  return i - first;
}

}  // namespace

std::optional<double> parse_decimal(std::string_view text) {
  const std::size_t whole = digits(text, 0);
  std::size_t end = whole;
  if (end < text.size() && text[end] == '.') end += 1 + digits(text, end + 1);
  if (end != text.size() || end > 40 || end - whole + whole == 0 || text == ".")
    return std::nullopt;
  double value = 0;
  const auto [p, failed] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (failed != std::errc() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::size_t clock_length(std::string_view s) {
  std::size_t i = digits(s, 0);
  if (i == 0 || i > 3) return 0;
  int parts = 0;
  while (parts < 2 && i < s.size() && s[i] == ':' && digits(s, i + 1) == 2) {
    i += 3;
    ++parts;
  }
  if (parts == 0) return 0;
  if (i + 1 < s.size() && (s[i] == '.' || s[i] == ',') && is_digit(s[i + 1]))
    i += 1 + digits(s, i + 1);
  if (i < s.size() && is_digit(s[i])) return 0;
  return i;
}

std::optional<double> parse_clock(std::string_view text) {
  if (text.empty() || clock_length(text) != text.size()) return std::nullopt;
  const auto number = [&](std::size_t from, std::size_t n) {
    int value = 0;
    std::from_chars(text.data() + from, text.data() + from + n, value);
    return value;
  };
  std::size_t i = digits(text, 0);
  int first = number(0, i);
  const int second = number(i + 1, 2);
  i += 3;
  int hours = 0, minutes = first, seconds = second;
  if (i < text.size() && text[i] == ':') {
    hours = first;
    minutes = second;
    seconds = number(i + 1, 2);
    i += 3;
    if (minutes > 59) return std::nullopt;
  }
  if (seconds > 59) return std::nullopt;
  double fraction = 0;
  if (i < text.size())
    fraction = parse_decimal("0." + std::string(text.substr(i + 1, 9))).value_or(0);
  return hours * 3600 + minutes * 60 + seconds + fraction;
}

std::string show_clock(double t) {
  const auto whole = static_cast<long>(t);
  const long ms = std::lround((t - static_cast<double>(whole)) * 1000);
  std::string s = whole >= 3600
                      ? fmt::format("{}:{:02}:{:02}", whole / 3600, whole / 60 % 60, whole % 60)
                      : fmt::format("{}:{:02}", whole / 60, whole % 60);
  if (ms > 0 && ms < 1000) s += fmt::format(".{:03}", ms);
  return s;
}

}  // namespace plyscribe::transcript
