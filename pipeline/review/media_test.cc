#include "review/media.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

namespace plyscribe::review {
namespace {

// RFC 9110, section 14.1.2: its own examples are of a file of 10,000 bytes.
TEST(Media, RangesAreReadAsTheStandardSays) {
  struct Row {
    const char* header;
    std::optional<ByteRange> range;
  };
  for (const Row& row : std::vector<Row>{
           {"bytes=0-499", ByteRange{0, 499}},
           {"bytes=500-999", ByteRange{500, 999}},
           {"bytes=-500", ByteRange{9500, 9999}},
           {"bytes=9500-", ByteRange{9500, 9999}},
           {"bytes=0-", ByteRange{0, 9999}},
           {"bytes=9999-9999", ByteRange{9999, 9999}},
           {"bytes=0-99999", ByteRange{0, 9999}},  // cut at the end
           {"bytes=-99999", ByteRange{0, 9999}},   // all of it
           {"bytes=10000-", {}},
           {"bytes=10000-10001", {}},
           {"bytes=5-4", {}},
           {"bytes=-0", {}},
           {"bytes=-", {}},
           {"bytes=", {}},
           {"bytes=a-b", {}},
           {"bytes= 1-2", {}},
           {"bytes=1-2x", {}},
           {"bytes=0-0,-1", {}},  // several: not served
           {"bytes=99999999999999999999999-", {}},
           {"bytes=0-99999999999999999999999", {}},
           {"bytes=--1", {}},
           {"lines=0-1", {}},
           {"", {}},
       }) {
    EXPECT_EQ(parse_range(row.header, 10000), row.range) << row.header;
  }
  EXPECT_EQ(parse_range("bytes=0-", 0), std::nullopt);
}

TEST(Media, TypesGoByTheEndingOfTheName) {
  EXPECT_EQ(media_type("a/lesson.MP4"), "video/mp4");
  EXPECT_EQ(media_type("tone.wav"), "audio/wav");
  EXPECT_EQ(media_type("mp4"), "application/octet-stream");
  EXPECT_EQ(media_type("page.html"), "application/octet-stream");
}

TEST(Media, WebAddressesHoldNothingThatEndsAnAttributeOrAPolicy) {
  for (const char* good : {"https://lesson.example/a.mp4", "http://lesson.example:8080/a?b=c#t=1",
                           "https://user@lesson.example/%20"}) {
    EXPECT_TRUE(is_web_address(good)) << good;
  }
  for (const char* bad : {"", "lesson.mp4", "https://", "https:///a", "javascript:alert(1)",
                          "file:///etc/passwd", "https://a b", "https://a\"b", "https://a;b",
                          "https://a'b", "https://a,b", "https://a\nb", "ftp://a/b"}) {
    EXPECT_FALSE(is_web_address(bad)) << bad;
  }
  EXPECT_EQ(origin_of("https://lesson.example/a.mp4"), "https://lesson.example");
  EXPECT_EQ(origin_of("http://lesson.example:8080?x"), "http://lesson.example:8080");
  EXPECT_EQ(origin_of("https://user@lesson.example/a@b"), "https://lesson.example");
}

TEST(Media, ReadsTheFileThatWasNamedAndNothingElse) {
  const auto folder = std::filesystem::path(testing::TempDir());
  const auto path = folder / "plyscribe_media.wav";
  std::ofstream(path) << "0123456789";
  const auto file = MediaFile::open(path.string());
  ASSERT_TRUE(file) << file.error().message;
  std::filesystem::remove(path);  // it stays open
  EXPECT_EQ(file->size(), 10u);
  char buffer[8] = {};
  EXPECT_EQ(file->read(3, buffer, 4), 4);
  EXPECT_EQ(std::string(buffer, 4), "3456");
  EXPECT_EQ(file->read(8, buffer, 4), 2);
  EXPECT_EQ(file->read(10, buffer, 4), 0);
  for (const std::string& bad :
       {folder.string(), (folder / "no-such").string(), std::string("/dev/null")}) {
    EXPECT_FALSE(MediaFile::open(bad)) << bad;
  }
}

}  // namespace
}  // namespace plyscribe::review
