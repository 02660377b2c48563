// What the program's own declaration of its commands says, as plain data. The help on a terminal,
// the man page and the completions of the shells are all written from it, so they can't differ.
//
//   CLI::App program; declare_program(program, status);       commands.h
//   describe(program).commands[0].options[0].about
//
// An option's value says what it takes: "FILE" and "DIR" are completed as such, words in small
// letters between bars ("white|black") are all that may stand there.
#ifndef PLYSCRIBE_APP_COMMAND_HELP_H_
#define PLYSCRIBE_APP_COMMAND_HELP_H_

#include <cstdint>
#include <string>
#include <vector>

namespace CLI {
class App;
class Option;
}  // namespace CLI

namespace plyscribe::app {

struct OptionHelp {
  enum class Takes : std::uint8_t { kNothing, kText, kFile, kFolder, kChoice, kChoices };

  std::vector<std::string> names;  // "-v", "--verbose"; of an argument, "LESSON"
  std::string value;               // "FILE"; empty for a flag and an argument
  std::string about;
  bool argument = false;  // named by its place
  Takes takes = Takes::kNothing;
  std::vector<std::string> choices;  // for kChoice, and kChoices: joined by commas
};

struct CommandHelp {
  std::string name, about;
  std::string details;  // paragraphs; lines that begin with blanks are kept as they are
  std::vector<std::string> examples;  // command lines
  std::vector<OptionHelp> options;    // arguments first
};

struct ProgramHelp {
  CommandHelp program;
  std::vector<CommandHelp> commands;
};

ProgramHelp describe(const CLI::App& program);

// "plyscribe extract LESSON [OPTION]..."
std::string usage_line(const CommandHelp& command);

// In lines of at most 79 columns.
std::string help_text(const ProgramHelp& help);
std::string help_text(const CommandHelp& command);

// Declares that the option takes one of these words and nothing else.
void takes_one_of(CLI::Option& option, const std::vector<std::string>& words);

// The same where `value` stands for the words in the help; any case, or several joined by commas.
enum class Spelling : std::uint8_t { kAnyCase, kJoined };
void takes_one_of(CLI::Option& option, const std::vector<std::string>& words, Spelling spelling,
                  const std::string& value);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_COMMAND_HELP_H_
