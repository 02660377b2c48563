#include "app/messages.h"

#include <gtest/gtest.h>

namespace plyscribe::app {
namespace {

TEST(OneLine, KeepsWhatIsTextAndShowsTheRestAsBytes) {
  using std::string_view_literals::operator""sv;
  struct Row {
    std::string_view text, shown;
  };
  for (const Row& row : {
           Row{"", ""},
           Row{"my lesson (2).txt: expected ...", "my lesson (2).txt: expected ..."},
           Row{"Grünfeld \u265E 講義.txt", "Grünfeld \u265E 講義.txt"},
           Row{"a\nb\tc", "a\\x0Ab\\x09c"},
           Row{"\x1B[31m", "\\x1B[31m"},
           Row{"\u009B31m", "\\xC2\\x9B31m"},
           Row{"a\u202Etxt", "a\\xE2\\x80\\xAEtxt"},
           Row{"a\u2028b", "a\\xE2\\x80\\xA8b"},
           Row{"caf\xE9", "caf\\xE9"},
           Row{"a\0b"sv, "a\\x00b"},
       }) {
    EXPECT_EQ(one_line(row.text), row.shown);
  }
}

}  // namespace
}  // namespace plyscribe::app
