// What the program may do where it writes to: a terminal has columns and, mostly, colours.
#ifndef PLYSCRIBE_APP_TERMINAL_H_
#define PLYSCRIBE_APP_TERMINAL_H_

#include <cstddef>

namespace plyscribe::app {

struct Terminal {
  bool is_one = false;
  bool colour = false;       // never with NO_COLOR set (and not empty) or TERM=dumb
  bool utf8 = true;          // whether the locale writes UTF-8; a file or pipe always gets it
  std::size_t columns = 79;  // of a terminal: its width, between 40 and 100
};

// Of standard output or standard error.
Terminal terminal_at(int descriptor);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_TERMINAL_H_
