// Where in a text a byte stands, for messages.
#ifndef PLYSCRIBE_LESSON_LINES_H_
#define PLYSCRIBE_LESSON_LINES_H_

#include <algorithm>
#include <cstddef>
#include <string_view>

namespace plyscribe::lesson {

// Lines count from 1. A byte behind the end stands on the last line.
inline std::size_t line_at(std::string_view text, std::size_t byte) {
  const std::string_view before = text.substr(0, byte);
  return 1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
}

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_LINES_H_
