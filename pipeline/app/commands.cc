#include "app/commands.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <iostream>

namespace plyscribe::app {

Status complain(std::string_view message) {
  fmt::print(stderr, "plyscribe: {}\n", message);
  return Status::kUnreadable;
}

Status run(int argc, const char* const* argv) {
  CLI::App program("From the timed transcript of a chess lesson to the tree of moves it meant",
                   "plyscribe");
  program.set_version_flag("--version", "plyscribe " PLYSCRIBE_VERSION);
  program.require_subcommand(1);
  program.footer(
      "Examples:\n"
      "  plyscribe extract lesson.vtt --out lesson/\n"
      "  plyscribe publish lesson/lesson.json --as pgn\n"
      "  plyscribe score gold.json lesson/lesson.pgn\n\n"
      "Returns 0 when done, 2 for a command line it can't read, 3 for a file it can't\n"
      "read or write.");
  Status status = Status::kDone;
  add_extract_command(program, status);
  add_publish_command(program, status);
  add_review_command(program, status);
  add_score_command(program, status);
  add_explain_command(program, status);
  try {
    program.parse(argc, argv);
  } catch (const CLI::Success& e) {  // --help, --version
    program.exit(e, std::cout, std::cerr);
  } catch (const CLI::ParseError& e) {
    fmt::print(stderr, "plyscribe: {} (plyscribe --help shows how it is used)\n", e.what());
    return Status::kUsage;
  }
  return status;
}

}  // namespace plyscribe::app
