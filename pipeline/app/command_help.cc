#include "app/command_help.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cctype>
#include <cstddef>
#include <string_view>

#include "publish/text.h"

namespace plyscribe::app {
namespace {

constexpr std::size_t kColumns = 79;
constexpr std::size_t kAboutColumn = 26;
constexpr char kJoinedMark = '+';

bool same(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
    return std::tolower(static_cast<unsigned char>(x)) ==
           std::tolower(static_cast<unsigned char>(y));
  });
}

std::vector<std::string> split(std::string_view text, char at) {
  std::vector<std::string> parts;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(at), text.size());
    parts.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return parts;
}

OptionHelp::Takes taken_by(const std::string& value) {
  using Takes = OptionHelp::Takes;
  if (value == "DIR") return Takes::kFolder;
  const auto parts = split(value, '|');
  const bool file = std::any_of(parts.begin(), parts.end(), [](const std::string& part) {
    return part == "FILE" || part.find('.') != std::string::npos;  // "OUT.html"
  });
  return file ? Takes::kFile : Takes::kText;
}

OptionHelp describe(const CLI::Option& option) {
  OptionHelp help;
  help.about = option.get_description();
  help.argument = option.get_positional();
  if (help.argument) {
    help.names = {option.get_name(true)};
    help.takes = OptionHelp::Takes::kFile;
    return help;
  }
  for (const std::string& name : option.get_snames()) help.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) help.names.push_back("--" + name);
  if (option.get_items_expected_max() == 0) return help;
  // The library joins a type's name and what its checks say of themselves by a colon; only
  // takes_one_of makes checks that say anything.
  const std::string type = option.get_type_name();
  const std::size_t colon = type.find(':');
  help.value = type.substr(0, colon);
  help.takes = taken_by(help.value);
  if (colon != std::string::npos) {
    const bool joined = type[colon + 1] == kJoinedMark;
    help.choices = split(type.substr(colon + 1 + (joined ? 1 : 0)), '|');
    help.takes = joined ? OptionHelp::Takes::kChoices : OptionHelp::Takes::kChoice;
  }
  return help;
}

CommandHelp describe_command(const CLI::App& app) {
  CommandHelp help;
  help.name = app.get_name();
  help.about = app.get_description();
  static constexpr std::string_view kExamples = "Examples:\n";
  const std::string footer = app.get_footer();
  const std::size_t examples = footer.find(kExamples);
  help.details = footer.substr(0, examples);
  while (help.details.ends_with('\n')) help.details.pop_back();
  if (examples != std::string::npos) {
    for (const std::string& line : split(footer.substr(examples + kExamples.size()), '\n')) {
      help.examples.push_back(line.substr(line.find_first_not_of(' ')));
    }
  }
  for (const CLI::Option* option : app.get_options()) help.options.push_back(describe(*option));
  std::stable_partition(help.options.begin(), help.options.end(),
                        [](const OptionHelp& option) { return option.argument; });
  return help;
}

std::string label(const OptionHelp& option) {
  const std::string names = fmt::format("{}", fmt::join(option.names, ", "));
  return option.value.empty() ? names : names + ' ' + option.value;
}

// The label, and what is said about it in a column of its own.
std::string row(const std::string& label, const std::string& about) {
  const std::string margin(kAboutColumn, ' ');
  std::string head = "  " + label;
  std::string out;
  if (publish::columns(head) + 2 > kAboutColumn) {
    out = head + '\n';
    head.clear();
  }
  head.resize(kAboutColumn, ' ');
  publish::LineFiller filler(kColumns - kAboutColumn, "");
  filler.add_words(about);
  for (const std::string& line : split(filler.finish(), '\n')) {
    out += head + line + '\n';
    head = margin;
  }
  return out;
}

// Paragraphs filled anew; a line that begins with blanks keeps its place and hangs.
std::string filled(const std::string& details) {
  std::string out;
  std::string paragraph;
  const auto end_paragraph = [&] {
    publish::LineFiller filler(kColumns, "");
    filler.add_words(paragraph);
    out += filler.finish();
    paragraph.clear();
  };
  for (const std::string& line : split(details, '\n')) {
    if (!line.starts_with(' ') && !line.empty()) {
      paragraph += line + ' ';
      if (line.ends_with(':')) end_paragraph();
      continue;
    }
    end_paragraph();
    if (line.empty()) {
      out += '\n';
      continue;
    }
    const std::size_t word = line.find_first_not_of(' ');
    const std::size_t gap = line.find("  ", word);
    const std::size_t hang = gap == std::string::npos ? word + 2 : line.find_first_not_of(' ', gap);
    publish::LineFiller filler(kColumns - hang, "");
    filler.add_words(line.substr(hang));
    std::string head = line.substr(0, hang);
    for (const std::string& part : split(filler.finish(), '\n')) {
      out += head + part + '\n';
      head.assign(hang, ' ');
    }
  }
  end_paragraph();
  return out;
}

std::string ending(const CommandHelp& help) {
  std::string out;
  if (!help.details.empty()) out += '\n' + filled(help.details);
  if (!help.examples.empty()) out += "\nExamples:\n";
  for (const std::string& example : help.examples) out += "  " + example + '\n';
  return out;
}

}  // namespace

ProgramHelp describe(const CLI::App& program) {
  ProgramHelp help{describe_command(program), {}};
  for (const CLI::App* command : program.get_subcommands([](const CLI::App*) { return true; })) {
    help.commands.push_back(describe_command(*command));
  }
  return help;
}

std::string usage_line(const CommandHelp& command) {
  std::string out = "plyscribe " + command.name;
  for (const OptionHelp& option : command.options) {
    if (option.argument) out += ' ' + option.names.front();
  }
  return out + " [OPTION]...";
}

std::string help_text(const ProgramHelp& help) {
  std::string out = help.program.about + "\n\n  plyscribe COMMAND ...\n\nCommands:\n";
  for (const CommandHelp& command : help.commands) out += row(command.name, command.about);
  out += "\nOptions:\n";
  for (const OptionHelp& option : help.program.options) out += row(label(option), option.about);
  return out + ending(help.program);
}

std::string help_text(const CommandHelp& command) {
  std::string out = command.about + "\n\n  " + usage_line(command) + "\n\n";
  bool arguments = true;
  for (const OptionHelp& option : command.options) {
    if (arguments && !option.argument) out += '\n';
    arguments = option.argument;
    out += row(label(option), option.about);
  }
  return out + ending(command);
}

void takes_one_of(CLI::Option& option, const std::vector<std::string>& words) {
  const std::string value = fmt::format("{}", fmt::join(words, "|"));
  option.type_name(value);
  option.check(
      [words](const std::string& word) {
        return std::find(words.begin(), words.end(), word) != words.end()
                   ? std::string()
                   : fmt::format("expected one of {}, not '{}'", fmt::join(words, ", "), word);
      },
      value);
}

void takes_one_of(CLI::Option& option, const std::vector<std::string>& words, Spelling spelling,
                  const std::string& value) {
  const bool joined = spelling == Spelling::kJoined;
  if (joined) option.delimiter(',');
  option.type_name(value);
  option.check(
      [words, joined](const std::string& word) {
        const bool known = std::any_of(words.begin(), words.end(), [&](const std::string& w) {
          return joined ? w == word : same(w, word);
        });
        return known ? std::string()
                     : fmt::format("expected one of {}, not '{}'", fmt::join(words, ", "), word);
      },
      (joined ? std::string(1, kJoinedMark) : "") + fmt::format("{}", fmt::join(words, "|")));
}

}  // namespace plyscribe::app
