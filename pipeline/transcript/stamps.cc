#include "transcript/stamps.h"

#include <algorithm>

#include "transcript/clock.h"

namespace plyscribe::transcript {
namespace {

constexpr auto npos = std::string_view::npos;

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\f' || c == '\v'; }
bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
std::size_t skip(std::string_view s, std::size_t i, std::string_view of) {
  return std::min(s.find_first_not_of(of, i), s.size());
}

}  // namespace

std::optional<Stamp> stamp_at(std::string_view s, bool brackets_only) {
  if (s.empty()) return std::nullopt;
  Stamp stamp;
  stamp.style = s[0] == '[' || s[0] == '(' ? s[0] : '-';
  if (brackets_only && stamp.style != '[') return std::nullopt;
  std::size_t i = stamp.style == '-' ? 0 : skip(s, 1, " \t");
  const std::size_t n = clock_length(s.substr(i, 40));
  if (n == 0) return std::nullopt;
  stamp.text = s.substr(i, n);
  const auto time = parse_clock(stamp.text);
  stamp.valid = time.has_value();
  stamp.time = time.value_or(0);
  i += n;
  if (const std::size_t to = s.substr(0, i + 40).find_first_not_of(" \t->\xE2\x80\x93\x94", i);
      to != npos && to > i) {
    if (const std::size_t second = clock_length(s.substr(to, 40)); second > 0) i = to + second;
  }
  if (stamp.style == '-') {
    if (i < s.size() && !is_blank(s[i]) && std::string_view("*_`]|:").find(s[i]) == npos)
      return std::nullopt;
    if (!stamp.valid) return std::nullopt;  // "5:75" is no stamp, just text
  } else {
    i = skip(s, i, " \t");
    if (i >= s.size() || s[i] != (stamp.style == '[' ? ']' : ')')) return std::nullopt;
    ++i;
    if (i < s.size() && s[i] == '(') {  // a link to the video
      const std::size_t end = s.substr(0, i + kLookAhead).find_first_of(") \t", i);
      if (end != npos && s[end] == ')' && clock_length(s.substr(i + 1, 40)) == 0) i = end + 1;
    }
  }
  stamp.length = i;
  return stamp;
}

std::size_t label_length(std::string_view s) {
  if (s.starts_with(">>")) return skip(s, 2, "> \t");
  const std::string_view head = s.substr(0, 48);
  const std::size_t colon = head.find(':');
  if (colon == npos || colon == 0) return 0;
  std::string_view name = head.substr(0, colon);
  std::size_t end = colon + 1;
  if (name.starts_with("**")) {
    if (head.substr(end).starts_with("**")) return end + 2;
    return name.size() > 4 && name.ends_with("**") ? end : 0;
  }
  if (end < s.size() && !is_blank(s[end])) return 0;
  if (name.starts_with("Speaker ") && name.size() > 8 && is_digit(name.back())) return end;
  const bool capitals = std::all_of(name.begin(), name.end(), [](char c) {
    return is_upper(c) || is_digit(c) || is_blank(c) || c == '.' || c == '-';
  });
  return capitals && std::count_if(name.begin(), name.end(), is_upper) >= 3 ? end : 0;
}

std::optional<Stamp> name_and_stamp(std::string_view line) {
  if (line.size() > 60 || line.empty() || !is_upper(line[0])) return std::nullopt;
  const std::size_t last = line.find_last_not_of(": \t");
  const std::size_t at = line.find_last_of(" \t", last) + 1;
  if (at == 0 || last == npos) return std::nullopt;
  for (std::size_t i = 0; i < at; ++i) {
    const bool starts_word = !is_blank(line[i]) && (i == 0 || is_blank(line[i - 1]));
    if (line[i] == '.' || line[i] == ',' ||
        (starts_word && !is_upper(line[i]) && !is_digit(line[i])))
      return std::nullopt;
  }
  const auto stamp = stamp_at(line.substr(at), false);
  if (!stamp || skip(line, at + stamp->length, ": \t") < line.size()) return std::nullopt;
  return stamp;
}

}  // namespace plyscribe::transcript
