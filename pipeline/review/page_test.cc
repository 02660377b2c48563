#include "review/page.h"

#include <gtest/gtest.h>

namespace plyscribe::review {
namespace {

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

TEST(Page, HoldsEverythingAndAsksForNothing) {
  const std::string policy = content_policy(false, "");
  const std::string html = render_page("A lesson", policy, R"({"words":[]})");
  EXPECT_EQ(html.find("{{"), std::string::npos);
  EXPECT_EQ(count(html, "<script"), 2u);  // the lesson and the program
  for (const char* part : {" src=\"", "url(", "@import", "<link rel=\"stylesheet\"", "import("}) {
    EXPECT_EQ(count(html, part), 0u) << part;
  }
  EXPECT_NE(html.find("<title>A lesson"), std::string::npos);
}

TEST(Page, MarkupInALessonStaysText) {
  const std::string html =
      render_page("</title><script>alert(1)</script>", content_policy(true, ""),
                  R"({"words":["</script><script>alert(2)</script>","<!--"]})");
  EXPECT_EQ(count(html, "alert(1)"), 1u);
  EXPECT_EQ(count(html, "<script>alert"), 0u);
  EXPECT_EQ(count(html, "</script>"), 2u);
  EXPECT_EQ(count(html, "<!--"), count(render_page("t", "", "{}"), "<!--"));
}

TEST(Page, PolicyAllowsOnlyWhatThePageNeeds) {
  for (const bool served : {false, true}) {
    const std::string policy = content_policy(served, "https://lesson.example/a.mp4");
    for (const char* part :
         {"default-src 'none'", "script-src 'sha256-", "style-src 'sha256-", "base-uri 'none'",
          "form-action 'none'", "require-trusted-types-for 'script'", "https://lesson.example"}) {
      EXPECT_NE(policy.find(part), std::string::npos) << part;
    }
    for (const char* part : {"unsafe", "*", "/a.mp4", "http:"}) {
      EXPECT_EQ(policy.find(part), std::string::npos) << part;
    }
  }
  EXPECT_NE(content_policy(false, "").find("connect-src 'none'"), std::string::npos);
}

}  // namespace
}  // namespace plyscribe::review
