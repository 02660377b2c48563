#include "publish/markup.h"

#include <fmt/format.h>

#include <algorithm>

namespace plyscribe::publish {
namespace {

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 || byte == 0x7F;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += is_control(c) ? ' ' : c;
    }
  }
  return out;
}

std::string style_string(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    // CSS Syntax, section 4.3.7: a backslash and the code point in hexadecimal, ended by a blank.
    if (c == '"' || c == '\\' || c == '<' || is_control(c)) {
      out += fmt::format("\\{:x} ", is_control(c) ? ' ' : c);
    } else {
      out += c;
    }
  }
  return out + '"';
}

bool is_plain_address(std::string_view address) {
  if (address.empty() || std::any_of(address.begin(), address.end(), is_control)) return false;
  const std::size_t end = address.find_first_of(":/?#");
  if (end == std::string_view::npos || address[end] != ':') return true;  // relative
  std::string scheme(address.substr(0, end));
  std::transform(scheme.begin(), scheme.end(), scheme.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
  return scheme == "http" || scheme == "https" || scheme == "file";
}

}  // namespace plyscribe::publish
