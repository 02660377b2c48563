#include "publish/text.h"

#include <gtest/gtest.h>

#include <string>

namespace plyscribe::publish {
namespace {

TEST(ClockText, ShowsTheSecondThatIsRunning) {
  struct Row {
    double seconds;
    const char* text;
  };
  for (const Row& row :
       {Row{0, "0:00"}, Row{9.99, "0:09"}, Row{37.9, "0:37"}, Row{60, "1:00"}, Row{3599.9, "59:59"},
        Row{3600, "1:00:00"}, Row{3725, "1:02:05"}, Row{36000, "10:00:00"}, Row{-1, "0:00"}}) {
    EXPECT_EQ(clock_text(row.seconds), row.text) << row.seconds;
  }
}

TEST(Columns, CountsCodePoints) {
  EXPECT_EQ(columns(""), 0u);
  EXPECT_EQ(columns("abc"), 3u);
  EXPECT_EQ(columns("\xC3\xA9t\xC3\xA9"), 3u);
  EXPECT_EQ(columns("\xE2\x99\x98"), 1u);
}

std::string filled(std::size_t width, const std::string& words, const std::string& indent = "") {
  LineFiller filler(width, indent);
  filler.add_words(words);
  return filler.finish();
}

TEST(LineFiller, FillsLinesToTheWidthAndNoFurther) {
  EXPECT_EQ(filled(5, ""), "");
  EXPECT_EQ(filled(5, "aa bb"), "aa bb\n");
  EXPECT_EQ(filled(5, "aa bbb"), "aa\nbbb\n");
  EXPECT_EQ(filled(5, " aa   bb "), "aa bb\n");
  EXPECT_EQ(filled(5, "\xC3\xA9\xC3\xA9 \xC3\xA9\xC3\xA9"), "\xC3\xA9\xC3\xA9 \xC3\xA9\xC3\xA9\n");
}

TEST(LineFiller, CutsAWordThatIsWiderThanALine) {
  EXPECT_EQ(filled(5, "a bbbbbbbbbbbb c"), "a\nbbbbb\nbbbbb\nbb c\n");
  EXPECT_EQ(filled(3, "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"), "\xC3\xA9\xC3\xA9\xC3\xA9\n\xC3\xA9\n");
}

TEST(LineFiller, IndentsEveryLineButTheFirst) {
  EXPECT_EQ(filled(6, "aa bb cc dd", "  "), "aa bb\n  cc\n  dd\n");
}

}  // namespace
}  // namespace plyscribe::publish
