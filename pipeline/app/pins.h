// Pins: corrections to a lesson, in a small file beside it. Schema "plyscribe.pins/1":
//
//   { "schema": "plyscribe.pins/1", "start": "Open Catalan", "side": "white" }
//
// Both corrections may be missing; they mean what --start and --side mean. A key that is not known
// is an error: a correction must not be lost in silence.
#ifndef PLYSCRIBE_APP_PINS_H_
#define PLYSCRIBE_APP_PINS_H_

#include <string>
#include <string_view>

#include "support/result.h"

namespace plyscribe::app {

struct Pins {
  std::string start;  // empty: not pinned
  std::string side;   // "white", "black" or empty
};

Result<Pins> read_pins(std::string_view json, std::string_view name);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_PINS_H_
