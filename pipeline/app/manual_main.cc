// plyscribe_manual DIR: writes what is installed beside the program and is made from its help: the
// man page and the completions for bash, zsh and fish. Run by the build.
#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "app/command_help.h"
#include "app/commands.h"
#include "app/completion.h"
#include "app/files.h"
#include "app/man_page.h"

int main(int argc, char** argv) {
  using namespace plyscribe::app;
  if (argc != 2) {
    fmt::print(stderr, "plyscribe_manual: expected a folder to write to\n");
    return static_cast<int>(Status::kUsage);
  }
  CLI::App program;
  Status status = Status::kDone;
  declare_program(program, status);
  const ProgramHelp help = describe(program);
  const std::string man = man_page(help, PLYSCRIBE_VERSION);
  const std::string bash = bash_completion(help);
  const std::string zsh = zsh_completion(help);
  const std::string fish = fish_completion(help);
  const auto failure = write_files(argv[1], {{"man/man1/plyscribe.1", man},
                                             {"bash-completion/completions/plyscribe", bash},
                                             {"zsh/site-functions/_plyscribe", zsh},
                                             {"fish/vendor_completions.d/plyscribe.fish", fish}});
  return static_cast<int>(failure ? complain(failure->message) : Status::kDone);
}
