// Tells the format from the content alone.
#include <algorithm>

#include "transcript/clock.h"
#include "transcript/readers.h"

namespace plyscribe::transcript {
namespace {

constexpr std::size_t kLinesLookedAt = 400;

std::string_view trim(std::string_view s) {
  const std::size_t first = s.find_first_not_of(" \t\r\n\f\v");
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(" \t\r\n\f\v") - first + 1);
}

bool is_json(std::string_view s) {
  if (s.empty() || (s[0] != '{' && s[0] != '[')) return false;
  const std::string_view rest = trim(s.substr(1, 4096));
  if (s[0] == '{') return rest.empty() || rest[0] == '"' || rest[0] == '}';
  return !rest.empty() && std::string_view("{[\"]").find(rest[0]) != std::string_view::npos;
}

// "file channel start duration word ..."
bool is_ctm_line(std::string_view line) {
  int field = 0;
  for (std::size_t i = 0; i < line.size() && field < 5; ++field) {
    const std::size_t end = std::min(line.find_first_of(" \t", i), line.size());
    const std::string_view f = line.substr(i, end - i);
    if ((field == 2 || field == 3) && !parse_decimal(f) && f != "*") return false;
    i = std::min(line.find_first_not_of(" \t", end), line.size());
  }
  return field == 5;
}

}  // namespace

Format detect_format(const Source& source) {
  const std::string_view all = source.text();
  const std::string_view s = all.substr(std::min(all.find_first_not_of(" \t\r\n"), all.size()));
  if (s.starts_with("WEBVTT") &&
      (s.size() == 6 || std::string_view(" \t\r\n").find(s[6]) != std::string_view::npos)) {
    return Format::kWebVtt;
  }
  if (s.starts_with("<?xml") || s.starts_with("<tt") ||
      (s.starts_with("<!--") && s.find("<tt") != std::string_view::npos) ||
      (s.starts_with("<") && s.substr(0, 4096).find(":tt ") != std::string_view::npos)) {
    return Format::kTtml;
  }
  if (is_json(s)) return Format::kJson;
  std::size_t ctm = 0, other = 0, looked_at = 0;
  for (std::size_t begin = 0; begin < s.size() && looked_at < kLinesLookedAt; ++looked_at) {
    const std::size_t end = std::min(s.find_first_of("\r\n", begin), s.size());
    const std::string_view line = trim(s.substr(begin, std::min<std::size_t>(end - begin, 400)));
    begin = end + 1;
    if (const std::size_t arrow = line.find("-->"); arrow != std::string_view::npos) {
      const std::string_view from = trim(line.substr(0, arrow));
      if (clock_length(from) == from.size() && !from.empty()) return Format::kSubRip;
    }
    if (line.empty() || line.starts_with(";;")) continue;
    ++(is_ctm_line(line) ? ctm : other);
  }
  return ctm > other ? Format::kCtm : Format::kStampedText;
}

}  // namespace plyscribe::transcript
