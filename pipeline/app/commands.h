// The commands of the program, one file each: explain_command.cc, extract_command.cc,
// publish_command.cc, review_command.cc, score_command.cc.
//
// declare_program declares them all, with help and version; add_NAME_command declares a command's options; when the command line names it, its run sets
// `status` to what the program returns. Messages are one line each on standard error and begin
// "plyscribe: ".
#ifndef PLYSCRIBE_APP_COMMANDS_H_
#define PLYSCRIBE_APP_COMMANDS_H_

#include <string_view>

namespace CLI {
class App;
}

namespace plyscribe::app {

enum class Status : int {
  kDone = 0,
  kUsage = 2,
  kUnreadable = 3,  // an input that can't be read, or an output that can't be written
};

void add_explain_command(CLI::App& program, Status& status);
void add_extract_command(CLI::App& program, Status& status);
void add_publish_command(CLI::App& program, Status& status);
void add_review_command(CLI::App& program, Status& status);
void add_score_command(CLI::App& program, Status& status);

// `status` must live as long as the program.
void declare_program(CLI::App& program, Status& status);

// The whole program.
Status run(int argc, const char* const* argv);

// Says it and returns kUnreadable.
Status complain(std::string_view message);

// -q, --quiet: nothing but errors and warnings on standard error.
void add_quiet_option(CLI::App& command, bool& quiet);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_COMMANDS_H_
