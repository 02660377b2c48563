// Tab-separated data, looked at in place.
#ifndef PLYSCRIBE_LEXICON_LINES_H_
#define PLYSCRIBE_LEXICON_LINES_H_

#include <string_view>

namespace plyscribe::lexicon {

// Cuts text at the first separator: gives what is before it and leaves what is after it.
// Without a separator gives all and leaves nothing.
inline std::string_view take_until(std::string_view& text, char separator) {
  const std::size_t at = text.find(separator);
  const std::string_view head = text.substr(0, at);
  text.remove_prefix(at == std::string_view::npos ? text.size() : at + 1);
  return head;
}

// Finds the line "key<tab>value" in lines that are sorted by their bytes up to the tab, where no
// key holds a byte below the tab's. Gives the value; data() is null if there is no such line.
// Cost: some twenty probes for a hundred thousand lines; nothing is loaded.
std::string_view find_line(std::string_view lines, std::string_view key);

}  // namespace plyscribe::lexicon

#endif  // PLYSCRIBE_LEXICON_LINES_H_
