#include "transcript/caption_markup.h"

#include <unicode/utf8.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <utility>

#include "transcript/clock.h"

namespace plyscribe::transcript {
namespace {

constexpr auto npos = std::string_view::npos;
constexpr std::size_t kLongestTag = 1000;
constexpr std::size_t kLongestReference = 12;

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

constexpr std::pair<std::string_view, std::string_view> kNamed[] = {
    {"amp", "&"},         {"lt", "<"},          {"gt", ">"},         {"quot", "\""},
    {"apos", "'"},        {"nbsp", "\u00A0"},   {"lrm", "\u200E"},   {"rlm", "\u200F"},
    {"hellip", "\u2026"}, {"mdash", "\u2014"},  {"ndash", "\u2013"}, {"lsquo", "\u2018"},
    {"rsquo", "\u2019"},  {"ldquo", "\u201C"},  {"rdquo", "\u201D"}, {"times", "\u00D7"},
    {"shy", "\u00AD"},    {"eacute", "\u00E9"}, {"uuml", "\u00FC"},  {"ouml", "\u00F6"},
    {"auml", "\u00E4"},
};

Range range(std::size_t begin, std::size_t end) {
  return {static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)};
}

}  // namespace

std::size_t append_reference(std::string_view text, std::size_t at, std::size_t end,
                             MappedText& out) {
  const std::string_view s = text.substr(at, std::min(end - at, kLongestReference));
  const std::size_t semicolon = s.find(';');
  if (semicolon == npos || !s.starts_with('&')) return 0;
  const std::size_t length = semicolon + 1;
  const std::string_view name = s.substr(1, semicolon - 1);
  if (name.starts_with('#')) {
    const bool hex = name.size() > 2 && (name[1] == 'x' || name[1] == 'X');
    const char* first = name.data() + (hex ? 2 : 1);
    const char* last = name.data() + name.size();
    std::uint32_t c = 0;
    const auto [p, failed] = std::from_chars(first, last, c, hex ? 16 : 10);
    if (failed != std::errc() || p != last || first == last) return 0;
    if (c == 0 || c > 0x10FFFF || U_IS_SURROGATE(c)) c = 0xFFFD;
    std::array<char, U8_MAX_LENGTH> bytes{};
    std::size_t n = 0;
    U8_APPEND_UNSAFE(bytes.data(), n, c);
    out.append({bytes.data(), n}, range(at, at + length));
    return length;
  }
  for (const auto& [known, meaning] : kNamed) {
    if (known == name) {
      out.append(meaning, range(at, at + length));
      return length;
    }
  }
  return 0;
}

void add_marked_up(std::string_view text, std::size_t begin, std::size_t end, Cue& cue) {
  MappedText line;
  bool in_ruby_text = false;
  const auto end_line = [&] {
    if (!line.text.empty()) cue.lines.push_back(std::exchange(line, {}));
  };
  for (std::size_t i = begin; i < end;) {
    const char c = text[i];
    const char next = i + 1 < end ? text[i + 1] : '\0';
    if (c == '<' && (is_letter(next) || is_digit(next) || next == '/')) {
      const std::size_t close = text.substr(0, std::min(end, i + kLongestTag)).find('>', i);
      if (close != npos) {
        const std::string_view tag = text.substr(i + 1, close - i - 1);
        const auto time = parse_clock(tag);
        if (time) cue.marks.push_back({static_cast<std::uint32_t>(close + 1), *time});
        if (tag == "rt" || tag.starts_with("rt.")) in_ruby_text = true;
        if (tag == "/rt" || tag == "/ruby") in_ruby_text = false;
        if (tag == "br" || tag == "br/" || tag == "br /") end_line();
        i = close + 1;
        continue;
      }
    }
    if (c == '{' && next == '\\') {
      const std::size_t close = text.substr(0, std::min(end, i + kLongestTag)).find('}', i);
      if (close != npos) {
        i = close + 1;
        continue;
      }
    }
    if (c == '\n' || c == '\r') {
      end_line();
      ++i;
      continue;
    }
    if (in_ruby_text) {
      ++i;
      continue;
    }
    if (c == '&') {
      if (const std::size_t n = append_reference(text, i, end, line); n > 0) {
        i += n;
        continue;
      }
    }
    std::size_t last = i + 1;
    while (last < end && (static_cast<unsigned char>(text[last]) & 0xC0) == 0x80) ++last;
    line.append(text.substr(i, last - i), range(i, last));
    i = last;
  }
  end_line();
}

}  // namespace plyscribe::transcript
