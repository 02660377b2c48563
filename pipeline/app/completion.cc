#include "app/completion.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string_view>
#include <vector>

namespace plyscribe::app {
namespace {

using Takes = OptionHelp::Takes;

constexpr std::string_view kMadeBy = "# Made from the program's own help by plyscribe_manual.\n";

// Between single quotes of a shell. In fish, a backslash goes before quote and backslash; in the
// others the quote is written outside.
std::string quoted(std::string_view text, bool fish = false) {
  std::string out = "'";
  for (const char c : text) {
    if (fish && (c == '\'' || c == '\\')) out += '\\';
    out += !fish && c == '\'' ? std::string("'\\''") : std::string(1, c);
  }
  return out + "'";
}

std::vector<std::string> names_of(const CommandHelp& command) {
  std::vector<std::string> names;
  for (const OptionHelp& option : command.options) {
    if (!option.argument) names.insert(names.end(), option.names.begin(), option.names.end());
  }
  return names;
}

std::vector<std::string> command_names(const ProgramHelp& help) {
  std::vector<std::string> names;
  for (const CommandHelp& command : help.commands) names.push_back(command.name);
  return names;
}

std::string bash_case(const OptionHelp& option) {
  std::string_view how;
  std::string words;
  switch (option.takes) {
    case Takes::kFile:
      how = "_plyscribe_paths -f";
      break;
    case Takes::kFolder:
      how = "_plyscribe_paths -d";
      break;
    case Takes::kChoice:
      how = "_plyscribe_words";
      break;
    case Takes::kChoices:
      how = "_plyscribe_joined_words";
      break;
    case Takes::kText:
      how = "true";
      break;
    case Takes::kNothing:
      return "";
  }
  for (const std::string& word : option.choices) words += ' ' + word;
  return fmt::format("        {}) {}{}; return ;;\n", fmt::join(option.names, "|"), how, words);
}

// Characters that mean something inside an _arguments specification.
std::string zsh_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (std::string_view("[]:\\").find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

std::string zsh_action(const OptionHelp& option) {
  switch (option.takes) {
    case Takes::kFile:
      return "_files";
    case Takes::kFolder:
      return "_files -/";
    case Takes::kChoice:
      return fmt::format("({})", fmt::join(option.choices, " "));
    case Takes::kChoices:
      return fmt::format("_sequence compadd - {}", fmt::join(option.choices, " "));
    case Takes::kText:
    case Takes::kNothing:
      break;
  }
  return " ";
}

std::string zsh_specification(const OptionHelp& option) {
  if (option.argument) return quoted(fmt::format(":{}:_files", zsh_text(option.names.front())));
  std::string out;
  for (const std::string& name : option.names) {
    std::string one = fmt::format("{}[{}]", name, zsh_text(option.about));
    if (!option.value.empty()) {
      one += fmt::format(":{}:{}", zsh_text(option.value), zsh_action(option));
    }
    out += (out.empty() ? "" : " ") + quoted(one);
  }
  return out;
}

std::string fish_option(const OptionHelp& option, std::string_view condition) {
  if (option.argument) return "";
  std::string out = fmt::format("complete -c plyscribe -n {}", condition);
  for (const std::string& name : option.names) {
    out += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
  }
  switch (option.takes) {
    case Takes::kFile:
      out += " -r -F";
      break;
    case Takes::kFolder:
      out += " -x -a '(__fish_complete_directories (commandline -ct))'";
      break;
    case Takes::kChoice:
      out += fmt::format(" -x -a '{}'", fmt::join(option.choices, " "));
      break;
    case Takes::kChoices:
      out += fmt::format(" -x -a '(__fish_append , {})'", fmt::join(option.choices, " "));
      break;
    case Takes::kText:
      out += " -x";
      break;
    case Takes::kNothing:
      break;
  }
  return out + " -d " + quoted(option.about, true) + '\n';
}

}  // namespace

std::string bash_completion(const ProgramHelp& help) {
  std::string out(kMadeBy);
  out += R"(
# $cur is the word to complete; the functions put what it may become into COMPREPLY.
_plyscribe_words() { mapfile -t COMPREPLY < <(compgen -W "$*" -- "$cur"); }

# Behind the last comma, what isn't there yet.
_plyscribe_joined_words() {
  local before= word
  [[ $cur == *,* ]] && before=${cur%,*},
  COMPREPLY=()
  for word in "$@"; do
    [[ ,$before == *,$word,* || $before$word != "$cur"* ]] || COMPREPLY+=("$before$word")
  done
  compopt -o nospace 2>/dev/null
}

_plyscribe_paths() {
  compopt -o filenames 2>/dev/null
  mapfile -t COMPREPLY < <(compgen "$1" -- "$cur")
}

_plyscribe() {
  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]}
  COMPREPLY=()
  if [[ $COMP_CWORD -eq 1 ]]; then
)";
  out += fmt::format("    _plyscribe_words {} {}\n", fmt::join(command_names(help), " "),
                     fmt::join(names_of(help.program), " "));
  out += "    return\n  fi\n  case ${COMP_WORDS[1]} in\n";
  for (const CommandHelp& command : help.commands) {
    out += fmt::format("    {})\n      case $prev in\n", command.name);
    for (const OptionHelp& option : command.options) {
      if (!option.argument) out += bash_case(option);
    }
    out +=
        fmt::format("      esac\n      [[ $cur == -* ]] && {{ _plyscribe_words {}; return; }} ;;\n",
                    fmt::join(names_of(command), " "));
  }
  return out +
         "    *) return ;;\n  esac\n  _plyscribe_paths -f\n}\ncomplete -F _plyscribe plyscribe\n";
}

std::string zsh_completion(const ProgramHelp& help) {
  std::string out = "#compdef plyscribe\n" + std::string(kMadeBy) + R"(
_plyscribe() {
  local state
  local -a commands=(
)";
  for (const CommandHelp& command : help.commands) {
    out += "    " + quoted(fmt::format("{}:{}", command.name, zsh_text(command.about))) + '\n';
  }
  out += "  )\n  _arguments -C \\\n";
  for (const OptionHelp& option : help.program.options) {
    out += fmt::format("    {} \\\n", zsh_specification(option));
  }
  out +=
      "    '1:command:->command' '*::argument:->rest'\n"
      "  case $state in\n"
      "    command) _describe command commands ;;\n"
      "    rest)\n      case $words[1] in\n";
  for (const CommandHelp& command : help.commands) {
    out += fmt::format("        {}) _arguments", command.name);
    for (const OptionHelp& option : command.options) {
      out += " \\\n            " + zsh_specification(option);
    }
    out += " ;;\n";
  }
  return out + "      esac ;;\n  esac\n}\n\n_plyscribe \"$@\"\n";
}

std::string fish_completion(const ProgramHelp& help) {
  std::string out(kMadeBy);
  out += "complete -c plyscribe -n __fish_use_subcommand -f\n";
  for (const OptionHelp& option : help.program.options) {
    out += fish_option(option, "__fish_use_subcommand");
  }
  for (const CommandHelp& command : help.commands) {
    out += fmt::format("complete -c plyscribe -n __fish_use_subcommand -a {} -d {}\n", command.name,
                       quoted(command.about, true));
    for (const OptionHelp& option : command.options) {
      out += fish_option(option, fmt::format("'__fish_seen_subcommand_from {}'", command.name));
    }
  }
  return out;
}

}  // namespace plyscribe::app
