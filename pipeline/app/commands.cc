#include "app/commands.h"

#include <fmt/format.h>

namespace plyscribe::app {

Status complain(std::string_view message) {
  fmt::print(stderr, "plyscribe: {}\n", message);
  return Status::kUnreadable;
}

}  // namespace plyscribe::app
