#include "publish/heard_name.h"

#include <gtest/gtest.h>

#include "board/notation.h"

namespace plyscribe::publish {
namespace {

TEST(HeardName, IsThePieceAndTheSquareThatWereNamed) {
  struct Row {
    const char* heard;
    HeardName name;
  };
  const Row rows[] = {
      {"Nf3", {'N', "f3"}},
      {"knight f3", {'N', "f3"}},
      {"knight to f three", {'N', "f3"}},
      {"Bxe5+", {'B', "e5"}},
      {"bxe5", {0, "e5"}},
      {"e4", {0, "e4"}},
      {"E4", {0, ""}},  // a capital may be a file or the start of a sentence: left alone
      {"h seven h five", {0, "h5"}},
      {"queen takes knight", {'Q', ""}},
      {"takes", {0, ""}},
      {"castles", {0, ""}},
      {"before", {0, ""}},
      {"e8Q", {0, "e8"}},
      {"in e14", {0, ""}},
      {"", {0, ""}},
  };
  for (const Row& row : rows) {
    EXPECT_EQ(name_in(row.heard), row.name)
        << row.heard << ": " << name_in(row.heard).piece << name_in(row.heard).square;
  }
}

TEST(HeardName, FitsTheMoveUnlessItSaysSomethingElse) {
  struct Row {
    const char *line, *move, *heard;
    bool fits, says;
  };
  const Row rows[] = {
      {"", "Nf3", "Nf3", true, true},
      {"", "Nf3", "f3", true, false},
      {"", "Nf3", "the knight", true, false},
      {"", "Nf3", "Bf3", false, false},
      {"", "Nf3", "Nc3", false, false},
      {"", "e4", "before", true, false},  // says nothing of a square
      {"e4 e6 e5 d5", "exd6", "e takes d5", true, true},
      {"e4 e6 e5 d5", "exd6", "exd6", true, true},
      {"e4 e6 e5 d5", "exd6", "exf6", false, false},
  };
  for (const Row& row : rows) {
    board::Position p = board::Position::initial();
    const auto line = board::parse_line(p, row.line);
    ASSERT_TRUE(line) << row.line;
    for (const board::Move m : *line) p = p.after(m);
    EXPECT_EQ(fits(name_in(row.heard), p, *board::parse_san(p, row.move)), row.fits)
        << row.move << " heard " << row.heard;
    EXPECT_EQ(says(name_in(row.heard), p, *board::parse_san(p, row.move)), row.says)
        << row.move << " heard " << row.heard;
  }
}

}  // namespace
}  // namespace plyscribe::publish
