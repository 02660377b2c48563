// Small pieces of text that several outputs share.
#ifndef PLYSCRIBE_PUBLISH_TEXT_H_
#define PLYSCRIBE_PUBLISH_TEXT_H_

#include <cstddef>
#include <string>
#include <string_view>

#include "board/position.h"

namespace plyscribe::publish {

// 37.9 -> "0:37", 3725 -> "1:02:05". The second that is running, so a player that jumps there is
// never late.
std::string clock_text(double seconds);

// "4." for White to move at p, "4..." for Black.
std::string move_number(const board::Position& p);

// Columns that UTF-8 text takes, one for each code point. What sets a terminal's colours ("\x1b[1m")
// takes none.
std::size_t columns(std::string_view utf8);

// Words put one behind the other, one blank between two, in lines of at most `width` columns. A
// word that is wider than a line by itself is cut between code points.
class LineFiller {
 public:
  explicit LineFiller(std::size_t width, std::string indent = "")
      : width_(width), indent_(std::move(indent)) {}

  void add(std::string_view word);  // stays whole, with what blanks it has
  void add_words(std::string_view words);
  std::string finish();  // the lines, each ended by a line feed

 private:
  std::size_t width_;
  std::string indent_;  // of every line but the first
  std::string lines_, line_;
  bool fresh_ = true;  // line_ holds no word yet
};

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_TEXT_H_
