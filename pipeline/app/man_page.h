// The man page, plyscribe(1), from the program's own help.
#ifndef PLYSCRIBE_APP_MAN_PAGE_H_
#define PLYSCRIBE_APP_MAN_PAGE_H_

#include <string>

#include "app/command_help.h"

namespace plyscribe::app {

// In the man macros that groff and mandoc both take.
std::string man_page(const ProgramHelp& help, const std::string& version);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_MAN_PAGE_H_
