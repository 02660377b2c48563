// A command line that can't be read, in one line: what is wrong with it and what to do instead.
#ifndef PLYSCRIBE_APP_USAGE_ERROR_H_
#define PLYSCRIBE_APP_USAGE_ERROR_H_

#include <string>
#include <vector>

namespace CLI {
class App;
class ParseError;
}  // namespace CLI

namespace plyscribe::app {

// "extract has no option --colour; try plyscribe extract --help". After program.parse has thrown.
std::string usage_error(const CLI::App& program, const CLI::ParseError& error);

// The word that is nearest to what was typed, at most two letters off; empty if there is none.
std::string nearest(const std::string& typed, const std::vector<std::string>& words);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_USAGE_ERROR_H_
