#include "app/terminal.h"

#include <langinfo.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <clocale>
#include <cstdlib>
#include <string_view>

namespace plyscribe::app {
namespace {

constexpr std::size_t kNarrowest = 40;
constexpr std::size_t kWidest = 100;  // longer lines are hard to read

std::string_view environment(const char* name) {
  const char* const value = std::getenv(name);
  return value == nullptr ? "" : value;
}

// Asked of the C library, whose locale is put back: numbers are written the same everywhere.
bool locale_is_utf8() {
  std::setlocale(LC_CTYPE, "");
  const bool utf8 = std::string_view(::nl_langinfo(CODESET)) == "UTF-8";
  std::setlocale(LC_CTYPE, "C");
  return utf8;
}

}  // namespace

Terminal terminal_at(int descriptor) {
  Terminal terminal;
  terminal.is_one = ::isatty(descriptor) == 1;
  if (!terminal.is_one) return terminal;
  const std::string_view kind = environment("TERM");
  terminal.colour = environment("NO_COLOR").empty() && !kind.empty() && kind != "dumb";
  terminal.utf8 = locale_is_utf8();
  winsize size{};
  if (::ioctl(descriptor, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
    // The last column stays free: some terminals wrap a line that fills it.
    terminal.columns = std::clamp(std::size_t{size.ws_col} - 1, kNarrowest, kWidest);
  }
  return terminal;
}

}  // namespace plyscribe::app
