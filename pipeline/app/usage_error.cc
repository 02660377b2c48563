#include "app/usage_error.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstddef>
#include <numeric>

#include "app/command_help.h"

namespace plyscribe::app {
namespace {

constexpr std::size_t kFarthest = 2;

// Letters to put in, leave out or change; quadratic, for words of a command line.
std::size_t distance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t corner = row[0]++;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t above = row[j + 1];
      row[j + 1] = std::min({row[j] + 1, above + 1, corner + (a[i] == b[j] ? 0 : 1)});
      corner = above;
    }
  }
  return row.back();
}

std::string without(std::string text, const std::string& end) {
  if (text.ends_with(end)) text.resize(text.size() - end.size());
  return text;
}

}  // namespace

std::string nearest(const std::string& typed, const std::vector<std::string>& words) {
  std::string best;
  std::size_t least = kFarthest + 1;
  for (const std::string& word : words) {
    const std::size_t d = distance(typed, word);
    if (d < least && d < word.size()) {
      least = d;
      best = word;
    }
  }
  return best;
}

std::string usage_error(const CLI::App& program, const CLI::ParseError& error) {
  const ProgramHelp help = describe(program);
  const auto used = program.get_subcommands();
  const CommandHelp* command = nullptr;
  for (const CommandHelp& c : help.commands) {
    if (!used.empty() && used.front()->get_name() == c.name) command = &c;
  }
  std::string what = error.what();
  std::string typed;
  if (const auto left = program.remaining(true); !left.empty()) typed = left.front();

  if (command == nullptr) {
    std::vector<std::string> names;
    for (const CommandHelp& c : help.commands) names.push_back(c.name);
    const std::string instead = nearest(typed, names);
    if (typed.empty()) {
      what = fmt::format("expected a command: {}", fmt::join(names, ", "));
    } else if (typed.starts_with('-')) {
      what = fmt::format("expected a command before {}: {}", typed, fmt::join(names, ", "));
    } else if (!instead.empty()) {
      what = fmt::format("there is no command {}; did you mean {}?", typed, instead);
    } else {
      what = fmt::format("there is no command {}; expected {}", typed, fmt::join(names, ", "));
    }
    return what + " (plyscribe --help shows them)";
  }
  // Of all that can be wrong at once, what is not known at all goes first.
  if (typed.starts_with("-") && typed.size() > 1) {
    const std::string option = typed.substr(0, typed.find('='));
    std::vector<std::string> names;
    for (const OptionHelp& o : command->options) {
      if (!o.argument) names.insert(names.end(), o.names.begin(), o.names.end());
    }
    const std::string instead = nearest(option, names);
    what = fmt::format("{} has no option {}", command->name, option);
    if (!instead.empty()) what += fmt::format("; did you mean {}?", instead);
  } else if (!typed.empty()) {
    what = fmt::format("expected nothing more, found '{}'; quote a name that has blanks", typed);
  } else if (error.get_name() == "RequiredError") {
    what = fmt::format("expected {}", without(what, " is required"));
  } else if (error.get_name() == "ExcludesError") {
    const std::size_t verb = what.find(" excludes ");
    if (verb != std::string::npos) what.replace(verb, 10, " can't stand beside ");
  } else if (error.get_name() == "ArgumentMismatch") {
    what = fmt::format("{}: expected a value behind it", what.substr(0, what.find(':')));
  }
  return fmt::format("{} (plyscribe {} --help shows how it is used)", what, command->name);
}

}  // namespace plyscribe::app
