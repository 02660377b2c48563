#include "app/command_help.h"

#include <gtest/gtest.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <string>
#include <vector>

#include "app/commands.h"
#include "app/progress.h"
#include "app/usage_error.h"
#include "publish/text.h"

namespace plyscribe::app {
namespace {

ProgramHelp program_help() {
  CLI::App program;
  Status status = Status::kDone;
  declare_program(program, status);
  return describe(program);
}

const OptionHelp* find(const ProgramHelp& help, const std::string& command,
                       const std::string& option) {
  for (const CommandHelp& c : help.commands) {
    for (const OptionHelp& o : c.options) {
      if (c.name == command && std::find(o.names.begin(), o.names.end(), option) != o.names.end()) {
        return &o;
      }
    }
  }
  return nullptr;
}

TEST(CommandHelp, KnowsWhatAnOptionTakes) {
  const ProgramHelp help = program_help();
  using Takes = OptionHelp::Takes;
  struct Row {
    const char *command, *option;
    Takes takes;
    const char* value;
  };
  for (const Row& row : std::vector<Row>{
           {"extract", "LESSON", Takes::kFile, ""},
           {"extract", "--start", Takes::kText, "NAME|MOVES|FEN"},
           {"extract", "--side", Takes::kChoice, "white|black"},
           {"extract", "--pins", Takes::kFile, "FILE"},
           {"extract", "--out", Takes::kFolder, "DIR"},
           {"extract", "--pieces", Takes::kChoice, "LANGUAGE"},
           {"extract", "--json", Takes::kNothing, ""},
           {"publish", "--as", Takes::kChoices, "KIND[,KIND]"},
           {"review", "--media", Takes::kFile, "FILE|URL"},
           {"review", "--page", Takes::kFile, "OUT.html"},
           {"review", "--port", Takes::kText, "N"},
           {"score", "--verbose", Takes::kNothing, ""},
       }) {
    const OptionHelp* option = find(help, row.command, row.option);
    ASSERT_NE(option, nullptr) << row.command << ' ' << row.option;
    EXPECT_EQ(option->takes, row.takes) << row.command << ' ' << row.option;
    EXPECT_EQ(option->value, row.value) << row.command << ' ' << row.option;
    EXPECT_EQ(option->choices.empty(), row.takes != Takes::kChoice && row.takes != Takes::kChoices);
  }
}

TEST(CommandHelp, HasAnExampleForEachCommandAndFitsATerminal) {
  const ProgramHelp help = program_help();
  EXPECT_GE(help.commands.size(), 5u);
  std::vector<std::string> texts{help_text(help)};
  for (const CommandHelp& command : help.commands) {
    EXPECT_FALSE(command.examples.empty()) << command.name;
    for (const std::string& example : command.examples) {
      EXPECT_NE(example.find("plyscribe " + command.name), std::string::npos) << example;
    }
    for (const OptionHelp& option : command.options) {
      EXPECT_NE(option.about, "") << command.name;
    }
    texts.push_back(help_text(command));
  }
  for (const std::string& text : texts) {
    for (std::size_t begin = 0; begin < text.size();) {
      const std::size_t end = text.find('\n', begin);
      EXPECT_LE(publish::columns(text.substr(begin, end - begin)), 79u)
          << text.substr(begin, end - begin);
      begin = end + 1;
    }
  }
}

TEST(UsageError, SaysWhatIsWrongAndWhatToDo) {
  struct Row {
    std::vector<std::string> arguments;
    const char* said;
  };
  for (const Row& row : std::vector<Row>{
           {{}, "expected a command: extract, publish, "},
           {{"extrakt", "a"}, "there is no command extrakt; did you mean extract?"},
           {{"undo"}, "there is no command undo; expected extract, "},
           {{"--side", "white"}, "expected a command before --side: extract, "},
           {{"extract"}, "expected LESSON (plyscribe extract --help"},
           {{"extract", "a", "b"}, "expected nothing more, found 'b'"},
           {{"extract", "a", "--sid", "white"},
            "extract has no option --sid; did you mean --side?"},
           {{"extract", "a", "--colour"}, "extract has no option --colour ("},
           {{"extract", "a", "--side", "red"}, "--side: expected one of white, black, not 'red'"},
           {{"extract", "a", "--out"}, "--out: expected a value behind it"},
           {{"extract", "a", "--json", "--pgn"}, "--json can't stand beside --pgn"},
           {{"publish", "a", "--as", "pgn,doc"}, "--as: expected one of pgn, "},
           {{"review", "a", "--port", "70000"}, "--port: expected a port, 0 to 65535, not '70000'"},
           {{"explain", "a", "--at", "noon"}, "--at: expected a time as 7:12 or 432, not noon"},
       }) {
    CLI::App program;
    Status status = Status::kDone;
    declare_program(program, status);
    std::vector<const char*> argv{"plyscribe"};
    for (const std::string& a : row.arguments) argv.push_back(a.c_str());
    try {
      program.parse(static_cast<int>(argv.size()), argv.data());
      ADD_FAILURE() << row.said << " was parsed";
    } catch (const CLI::ParseError& e) {
      const std::string said = usage_error(program, e);
      EXPECT_EQ(said.find(row.said), 0u) << said;
      EXPECT_NE(said.find(" --help shows"), std::string::npos) << said;
      EXPECT_EQ(said.find('\n'), std::string::npos) << said;
    }
  }
}

TEST(Nearest, IsAtMostTwoLettersOff) {
  const std::vector<std::string> words{"extract", "explain", "score"};
  EXPECT_EQ(nearest("extract", words), "extract");
  EXPECT_EQ(nearest("xtrat", words), "extract");
  EXPECT_EQ(nearest("sore", words), "score");
  EXPECT_EQ(nearest("review", words), "");
  EXPECT_EQ(nearest("", {"a"}), "");
}

TEST(ProgressBar, FillsUpAndFits) {
  EXPECT_EQ(progress_bar("reading a.txt", 0, 79),
            "reading a.txt  [........................]   0 %");
  EXPECT_EQ(progress_bar("reading a.txt", 0.5, 79),
            "reading a.txt  [############............]  50 %");
  EXPECT_EQ(progress_bar("reading a.txt", 7, 79),
            "reading a.txt  [########################] 100 %");
  EXPECT_EQ(progress_bar("reading a.txt", 1, 40), "[########################] 100 %");
}

}  // namespace
}  // namespace plyscribe::app
