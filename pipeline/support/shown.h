// Text from a file inside a message: one line, and not too long.
#ifndef PLYSCRIBE_SUPPORT_SHOWN_H_
#define PLYSCRIBE_SUPPORT_SHOWN_H_

#include <string>
#include <string_view>

namespace plyscribe {

// The first `most` bytes, whole characters, with blanks for controls; "..." where it goes on.
inline std::string shown(std::string_view text, std::size_t most = 100) {
  std::size_t end = text.size();
  if (end > most) {
    end = most;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
  }
  std::string out(text.substr(0, end));
  for (char& c : out) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
  }
  return end < text.size() ? out + "..." : out;
}

}  // namespace plyscribe

#endif  // PLYSCRIBE_SUPPORT_SHOWN_H_
