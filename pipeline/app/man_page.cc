#include "app/man_page.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cstddef>
#include <string_view>

namespace plyscribe::app {
namespace {

// Text of a line: nothing in it is a request or an escape.
std::string escaped(std::string_view text) {
  std::string out;
  if (text.starts_with('.') || text.starts_with('\'')) out += "\\&";
  for (const char c : text) {
    switch (c) {
      case '\\':
        out += "\\e";
        break;
      case '-':
        out += "\\-";
        break;
      case '\'':
        out += "\\(aq";
        break;
      case '"':
        out += "\\(dq";
        break;
      case '^':
        out += "\\(ha";
        break;
      case '~':
        out += "\\(ti";
        break;
      case '`':
        out += "\\(ga";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string bold(std::string_view text) { return "\\fB" + escaped(text) + "\\fR"; }

// Capital letters stand for something, small ones for themselves.
std::string value(const std::string& text) {
  const bool stands =
      std::any_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
  return stands ? "\\fI" + escaped(text) + "\\fR" : escaped(text);
}

std::string label(const OptionHelp& option) {
  if (option.argument) return value(option.names.front());
  std::string out;
  for (const std::string& name : option.names) out += (out.empty() ? "" : ", ") + bold(name);
  return option.value.empty() ? out : out + ' ' + value(option.value);
}

std::string options(const CommandHelp& command) {
  std::string out;
  for (const OptionHelp& option : command.options) {
    out += fmt::format(".TP\n{}\n{}.\n", label(option), escaped(option.about));
    const bool shown = option.value.find('|') != std::string::npos;
    if (!option.choices.empty() && !shown) {
      out +=
          fmt::format("One of {}.\n", escaped(fmt::format("{}", fmt::join(option.choices, ", "))));
    }
  }
  return out;
}

// Filled paragraphs; what begins with blanks stays in lines of its own.
std::string details(const std::string& text) {
  std::string out;
  bool kept = false;
  const auto keep = [&](bool on) {
    if (on != kept) out += on ? ".PP\n.nf\n" : ".fi\n";
    kept = on;
  };
  bool fresh = true;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::string_view line = std::string_view(text).substr(begin, end - begin);
    begin = end + 1;
    if (line.empty()) {
      keep(false);
      fresh = true;
      continue;
    }
    keep(line.starts_with(' '));
    if (fresh && !kept) out += ".PP\n";
    fresh = false;
    out += escaped(line) + '\n';
  }
  keep(false);
  return out;
}

std::string examples(const CommandHelp& command) {
  if (command.examples.empty()) return "";
  std::string out = ".PP\n.nf\n.RS\n";
  for (const std::string& example : command.examples) out += escaped(example) + '\n';
  return out + ".RE\n.fi\n";
}

}  // namespace

std::string man_page(const ProgramHelp& help, const std::string& version) {
  std::string out = ".\\\" Made from the program's own help by plyscribe_manual.\n";
  out += fmt::format(".TH PLYSCRIBE 1 \"\" \"plyscribe {}\" \"User Commands\"\n", version);
  out +=
      ".SH NAME\nplyscribe \\- from the timed transcript of a chess lesson to the tree of moves "
      "it meant\n";
  out += ".SH SYNOPSIS\n";
  bool first = true;
  for (const CommandHelp& command : help.commands) {
    if (!first) out += ".br\n";
    first = false;
    out += fmt::format("{} {}", bold("plyscribe"), bold(command.name));
    for (const OptionHelp& option : command.options) {
      if (option.argument) out += ' ' + value(option.names.front());
    }
    out += " [\\fIOPTION\\fR]...\n";
  }
  out +=
      ".SH DESCRIPTION\n"
      "plyscribe reads what a speech recogniser made of a recorded chess lesson and gives back "
      "the tree of moves that the speaker meant: every move legal, each with its second in the "
      "recording, mishearings put right, what is unsure marked.\n";
  out += ".SH OPTIONS\n" + options(help.program);
  out += ".SH COMMANDS\n";
  for (const CommandHelp& command : help.commands) {
    out += fmt::format(".SS {}\n{}.\n{}{}", escaped("plyscribe " + command.name),
                       escaped(command.about), options(command), details(command.details));
    out += examples(command);
  }
  out +=
      ".SH ENVIRONMENT\n"
      ".TP\n\\fBNO_COLOR\\fR\nIf it is set and not empty, nothing is written in colours.\n"
      ".TP\n\\fBTERM\\fR\nIf it is unset or \\fBdumb\\fR, the same.\n";
  out +=
      ".SH EXIT STATUS\n"
      ".TP\n0\nDone.\n"
      ".TP\n2\nA command line that can\\(aqt be read.\n"
      ".TP\n3\nA file that can\\(aqt be read or written; one line says which, where, and what was "
      "expected.\n";
  out +=
      ".SH FILES\n.TP\n\\fILESSON\\fB.pins.json\\fR\n"
      "Corrections made on the review page, saved beside the lesson.\n";
  out += ".SH EXAMPLES\n.nf\n";
  for (const std::string& example : help.program.examples) out += escaped(example) + '\n';
  return out + ".fi\n";
}

}  // namespace plyscribe::app
