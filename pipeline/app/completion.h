// What completes a command line of the program in a shell, from the program's own help: commands,
// options, the words an option takes, files and folders.
#ifndef PLYSCRIBE_APP_COMPLETION_H_
#define PLYSCRIBE_APP_COMPLETION_H_

#include <string>

#include "app/command_help.h"

namespace plyscribe::app {

std::string bash_completion(const ProgramHelp& help);
std::string zsh_completion(const ProgramHelp& help);
std::string fish_completion(const ProgramHelp& help);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_COMPLETION_H_
