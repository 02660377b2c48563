#include "lexicon/lines.h"

namespace plyscribe::lexicon {

std::string_view find_line(std::string_view lines, std::string_view key) {
  std::size_t low = 0,
              high = lines.size();  // starts of lines; the line sought starts in [low, high)
  while (low < high) {
    std::size_t middle = low + (high - low) / 2;
    while (middle > low && lines[middle - 1] != '\n') --middle;
    std::size_t end = lines.find('\n', middle);
    if (end == std::string_view::npos) end = lines.size();
    std::string_view value = lines.substr(middle, end - middle);
    const int order = take_until(value, '\t').compare(key);
    if (order == 0) return value;
    if (order < 0) {
      low = end + 1;
    } else {
      high = middle;
    }
  }
  return {};
}

}  // namespace plyscribe::lexicon
