#include "app/messages.h"

#include <fmt/format.h>
#include <unicode/uchar.h>
#include <unicode/utf8.h>

#include <cstdio>

namespace plyscribe::app {

std::string one_line(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t first = i;
    UChar32 c = 0;
    U8_NEXT(reinterpret_cast<const std::uint8_t*>(text.data()), i, text.size(), c);
    const int category = c < 0 ? int{U_CONTROL_CHAR} : u_charType(c);
    if (category != U_CONTROL_CHAR && category != U_FORMAT_CHAR &&
        category != U_LINE_SEPARATOR && category != U_PARAGRAPH_SEPARATOR) {
      out += text.substr(first, i - first);
      continue;
    }
    for (const char byte : text.substr(first, i - first)) {
      out += fmt::format("\\x{:02X}", static_cast<unsigned char>(byte));
    }
  }
  return out;
}

void say(std::string_view message) {
  const std::string line = "plyscribe: " + one_line(message) + "\n";
  std::fwrite(line.data(), 1, line.size(), stderr);
}

}  // namespace plyscribe::app
