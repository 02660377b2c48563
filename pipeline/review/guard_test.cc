#include "review/guard.h"

#include <gtest/gtest.h>

#include <set>

namespace plyscribe::review {
namespace {

TEST(Guard, LetsOnlyTheOwnPagePass) {
  const Guard guard("0123456789abcdef0123456789abcdef", 4711);
  const std::string path = "/0123456789abcdef0123456789abcdef/pins";
  const std::string own = "http://127.0.0.1:4711";
  struct Row {
    Caller caller;
    bool passes;
  };
  for (const Row& row : std::vector<Row>{
           {{"GET", path, "127.0.0.1:4711", "", "", ""}, true},
           {{"GET", path, "localhost:4711", "", "none", ""}, true},
           {{"HEAD", path, "127.0.0.1:4711", "", "same-origin", ""}, true},
           {{"POST", path, "127.0.0.1:4711", own, "same-origin", "application/json"}, true},
           // another name for this machine, as DNS rebinding would have it
           {{"GET", path, "lesson.example:4711", "", "", ""}, false},
           {{"GET", path, "127.0.0.1:4712", "", "", ""}, false},
           {{"GET", path, "127.0.0.1", "", "", ""}, false},
           {{"GET", path, "", "", "", ""}, false},
           // another page
           {{"POST", path, "127.0.0.1:4711", "http://lesson.example", "", "application/json"},
            false},
           {{"POST", path, "127.0.0.1:4711", "null", "", "application/json"}, false},
           {{"POST", path, "127.0.0.1:4711", "http://localhost:4711", "", "application/json"},
            false},
           {{"POST", path, "127.0.0.1:4711", "", "", "application/json"}, false},
           {{"GET", path, "127.0.0.1:4711", "", "cross-site", ""}, false},
           {{"GET", path, "127.0.0.1:4711", "", "same-site", ""}, false},
           // what a form of another page could send
           {{"POST", path, "127.0.0.1:4711", own, "", "text/plain"}, false},
           {{"POST", path, "127.0.0.1:4711", own, "", ""}, false},
           // without the token, or with another
           {{"GET", "/", "127.0.0.1:4711", "", "", ""}, false},
           {{"GET", "/pins", "127.0.0.1:4711", "", "", ""}, false},
           {{"GET", "/0123456789abcdef0123456789abcdef", "127.0.0.1:4711", "", "", ""}, false},
           {{"GET", "/0123456789abcdef0123456789abcdee/", "127.0.0.1:4711", "", "", ""}, false},
           {{"DELETE", path, "127.0.0.1:4711", own, "", ""}, false},
           {{"OPTIONS", path, "127.0.0.1:4711", own, "", ""}, false},
       }) {
    const Caller& c = row.caller;
    EXPECT_EQ(guard.refusal(c).empty(), row.passes)
        << c.method << ' ' << c.path << " Host " << c.host << " Origin " << c.origin << " from "
        << c.fetch_site << ' ' << c.content_type << ": " << guard.refusal(c);
  }
}

TEST(Guard, TokensAreLongAndDiffer) {
  std::set<std::string> seen;
  for (int i = 0; i < 100; ++i) {
    const std::string token = random_token();
    EXPECT_EQ(token.size(), 32u);
    EXPECT_EQ(token.find_first_not_of("0123456789abcdef"), std::string::npos) << token;
    EXPECT_TRUE(seen.insert(token).second) << token;
  }
}

}  // namespace
}  // namespace plyscribe::review
