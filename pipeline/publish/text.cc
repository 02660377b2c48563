#include "publish/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace plyscribe::publish {
namespace {

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

// Bytes of the colour setting at the front of the text; 0 if there is none.
std::size_t colour_setting(std::string_view text) {
  if (!text.starts_with("\x1b[")) return 0;
  const std::size_t end = text.find_first_not_of("0123456789;", 2);
  return end != std::string_view::npos && text[end] == 'm' ? end + 1 : 0;
}

// Bytes of the first `columns` code points; `taken` counts those that there were.
std::size_t prefix(std::string_view utf8, std::size_t columns, std::size_t* taken = nullptr) {
  std::size_t i = 0;
  std::size_t n = 0;
  while (i < utf8.size() && n < columns) {
    if (const std::size_t setting = colour_setting(utf8.substr(i)); setting > 0) {
      i += setting;
      continue;
    }
    ++i;
    while (i < utf8.size() && continues(utf8[i])) ++i;
    ++n;
  }
  if (taken != nullptr) *taken = n;
  return i;
}

}  // namespace

std::string clock_text(double seconds) {
  const auto s = static_cast<long>(std::floor(std::max(0.0, seconds)));
  if (s < 3600) return fmt::format("{}:{:02}", s / 60, s % 60);
  return fmt::format("{}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60);
}

std::string move_number(const board::Position& p) {
  return fmt::format("{}{}", p.fullmove_number(),
                     p.side_to_move() == board::Color::kWhite ? "." : "...");
}

std::size_t columns(std::string_view utf8) {
  std::size_t taken = 0;
  prefix(utf8, utf8.size(), &taken);
  return taken;
}

void LineFiller::add(std::string_view word) {
  assert(columns(indent_) + 1 < width_);
  if (word.empty()) return;
  if (!fresh_ && columns(line_) + 1 + columns(word) > width_) {
    lines_ += line_ + '\n';
    line_ = indent_;
    fresh_ = true;
  }
  if (!fresh_) line_ += ' ';
  fresh_ = false;
  while (columns(line_) + columns(word) > width_) {
    const std::size_t fits = prefix(word, width_ - columns(line_));
    lines_ += line_;
    lines_ += word.substr(0, fits);
    lines_ += '\n';
    line_ = indent_;
    word.remove_prefix(fits);
  }
  line_ += word;
}

void LineFiller::add_words(std::string_view words) {
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    add(words.substr(0, end));
    words.remove_prefix(std::min(end + 1, words.size()));
  }
}

std::string LineFiller::finish() {
  if (!fresh_) lines_ += line_ + '\n';
  line_.clear();
  fresh_ = true;
  return std::move(lines_);
}

}  // namespace plyscribe::publish
