#include "transcript/cue_timing.h"

#include <algorithm>

#include "transcript/clock.h"

namespace plyscribe::transcript {

std::string_view trim_blanks(std::string_view s) {
  constexpr std::string_view kBlanks = " \t\r\n\f\v";
  const std::size_t first = s.find_first_not_of(kBlanks);
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(kBlanks) - first + 1);
}

LineSpan line_at(std::string_view text, std::size_t begin) {
  const std::size_t end = std::min(text.find_first_of("\r\n", begin), text.size());
  return {begin, end, end + (text.substr(end, 2) == "\r\n" ? 2 : 1)};
}

std::optional<CueTiming> parse_cue_timing(std::string_view line) {
  const std::size_t arrow = line.find("-->");
  if (arrow == std::string_view::npos) return std::nullopt;
  const auto start = parse_clock(trim_blanks(line.substr(0, arrow)));
  std::string_view rest = trim_blanks(line.substr(arrow + 3));
  rest = rest.substr(0, rest.find_first_of(" \t"));
  const auto end = parse_clock(rest);
  if (!start || !end) return std::nullopt;
  return CueTiming{*start, *end};
}

}  // namespace plyscribe::transcript
