#include "publish/link.h"

#include <gtest/gtest.h>

namespace plyscribe::publish {
namespace {

// Fragments: W3C, Media Fragments URI 1.0, section 4.2.1, examples "#t=10" and name-value lists
// joined by "&" (section 4.1).
TEST(Link, MediaAddressesGetATemporalFragment) {
  EXPECT_EQ(Link::of_media("lesson.mp4").at(83.9), "lesson.mp4#t=83");
  EXPECT_EQ(Link::of_media("https://media.invalid/v?id=1").at(0),
            "https://media.invalid/v?id=1#t=0");
  EXPECT_EQ(Link::of_media("v.mp4#track=audio").at(3600), "v.mp4#track=audio&t=3600");
}

TEST(Link, PatternsGetTheSecondWhereTheyAskForIt) {
  const auto link = Link::parse("https://a.invalid/{seconds}/x?t={seconds}s");
  ASSERT_TRUE(link);
  EXPECT_EQ(link->at(61.999), "https://a.invalid/61/x?t=61s");
}

TEST(Link, PatternsWithoutAPlaceForTheSecondAreRefused) {
  for (const char* pattern : {"", "https://a.invalid", "{second}", "{ seconds }"}) {
    const auto link = Link::parse(pattern);
    ASSERT_FALSE(link) << pattern;
    EXPECT_EQ(link.error().message.rfind("expected an address with {seconds} in it", 0), 0u);
  }
}

TEST(Link, NoMediaGivesNoLink) {
  EXPECT_TRUE(Link::of_media("").empty());
  EXPECT_EQ(Link().at(10), "");
}

}  // namespace
}  // namespace plyscribe::publish
