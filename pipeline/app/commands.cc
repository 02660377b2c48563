#include "app/commands.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <iostream>
#include <string>

#include "app/build_facts.h"
#include "app/command_help.h"
#include "app/messages.h"
#include "app/usage_error.h"

namespace plyscribe::app {

Status complain(std::string_view message) {
  say(message);
  return Status::kUnreadable;
}

void add_quiet_option(CLI::App& command, bool& quiet) {
  command.add_flag("-q,--quiet", quiet, "Say nothing but errors and warnings");
}

void declare_program(CLI::App& program, Status& status) {
  program.name("plyscribe");
  program.description("From the timed transcript of a chess lesson to the tree of moves it meant");
  program.set_help_flag("-h,--help", "Show this help; of a command: plyscribe COMMAND --help");
  program.set_version_flag("--version", build_facts, "Show the version and what it was built of");
  program.require_subcommand(1);
  program.footer(
      "Returns 0 when done, 2 for a command line it can't read, 3 for a file it can't read or "
      "write.\n\n"
      "Examples:\n"
      "  plyscribe extract lesson.vtt\n"
      "  plyscribe extract lesson.vtt --out lesson/\n"
      "  plyscribe review lesson.vtt --media lesson.mp4\n"
      "  plyscribe publish lesson/lesson.json --as pgn");
  program.formatter_fn([](const CLI::App* app, const std::string&, CLI::AppFormatMode) {
    const ProgramHelp help = describe(*(app->get_parent() ? app->get_parent() : app));
    for (const CommandHelp& command : help.commands) {
      if (command.name == app->get_name()) return help_text(command);
    }
    return help_text(help);
  });
  add_extract_command(program, status);
  add_publish_command(program, status);
  add_review_command(program, status);
  add_score_command(program, status);
  add_explain_command(program, status);
  for (CLI::App* command : program.get_subcommands([](CLI::App*) { return true; })) {
    command->set_help_flag("-h,--help", "Show this help");
  }
}

Status run(int argc, const char* const* argv) {
  CLI::App program;
  Status status = Status::kDone;
  declare_program(program, status);
  try {
    program.parse(argc, argv);
  } catch (const CLI::Success& e) {  // --help, --version
    program.exit(e, std::cout, std::cerr);
  } catch (const CLI::ParseError& e) {
    complain(usage_error(program, e));
    return Status::kUsage;
  }
  return status;
}

}  // namespace plyscribe::app
