#include "publish/markup.h"

#include <gtest/gtest.h>

namespace plyscribe::publish {
namespace {

TEST(Markup, TextStaysText) {
  EXPECT_EQ(escaped("Q&A <b>\"x\"</b> it's"), "Q&amp;A &lt;b&gt;&quot;x&quot;&lt;/b&gt; it&#39;s");
  EXPECT_EQ(escaped("a\x01"
                    "b\nc"),
            "a b c");
  EXPECT_EQ(escaped("Grünfeld ‹›"), "Grünfeld ‹›");
}

TEST(Markup, AStyleStringCannotEnd) {
  EXPECT_EQ(style_string("Plain"), "\"Plain\"");
  EXPECT_EQ(style_string("\"; } </style>"), "\"\\22 ; } \\3c /style>\"");
  EXPECT_EQ(style_string("a\\b\nc"), "\"a\\5c b\\20 c\"");
}

TEST(Markup, OnlyAddressesThatShowSomethingAreLinked) {
  for (const char* good : {"https://video.invalid/7?t=3", "HTTP://a.invalid/", "lesson.mp4#t=3",
                           "../a/b.webm", "file:///home/a.mp4", "//a.invalid/x", "a?b=c:d"}) {
    EXPECT_TRUE(is_plain_address(good)) << good;
  }
  for (const char* bad :
       {"", "javascript:alert(1)", "JavaScript:x", "data:text/html,x", "java\nscript:x", ":x"}) {
    EXPECT_FALSE(is_plain_address(bad)) << bad;
  }
}

}  // namespace
}  // namespace plyscribe::publish
