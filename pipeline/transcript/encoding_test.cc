#include <gtest/gtest.h>

#include "transcript/source.h"
#include "transcript/test_reading.h"

namespace plyscribe::transcript {
namespace {

std::string utf16(std::string_view ascii_or_units, bool little, bool bom) {
  std::u16string units;
  if (bom) units += u'\uFEFF';
  for (const char c : ascii_or_units)
    units += c == '~' ? u'\u2658' : c == '^' ? u'\u00E9' : static_cast<char16_t>(c);
  std::string bytes;
  for (const char16_t u : units) {
    const char high = static_cast<char>(u >> 8), low = static_cast<char>(u & 0xFF);
    bytes += little ? low : high;
    bytes += little ? high : low;
  }
  return bytes;
}

// The words, each followed by the bytes it came from.
std::string words_with_bytes(const std::string& bytes) {
  const auto r = read_transcript(bytes, "t");
  if (!r) return "! " + r.error().message;
  std::string s;
  for (const Word& w : r->words) s += w.text + "<" + bytes.substr(w.offset, w.length) + ">";
  return s;
}

TEST(Encoding, Utf8OffsetsAreExact) {
  EXPECT_EQ(words_with_bytes("[0:03] caf\xC3\xA9 \xE2\x99\x98"
                             "f3"),
            "caf\xC3\xA9<caf\xC3\xA9>Nf3<\xE2\x99\x98"
            "f3>");
  EXPECT_EQ(words_with_bytes("\xEF\xBB\xBF[0:03] after c5"), "after<after>c5<c5>");
  EXPECT_EQ(words_with_bytes("[0:03] after\r\nc5\r\n[0:05] takes\r"),
            "after<after>c5<c5>takes<takes>");
}

TEST(Encoding, Utf16OffsetsAreExact) {
  for (const bool little : {true, false}) {
    for (const bool bom : {true, false}) {
      const std::string bytes = utf16("[0:03] so caf^ ~f3", little, bom);
      EXPECT_EQ(words_with_bytes(bytes), "so<" + utf16("so", little, false) + ">caf\xC3\xA9<" +
                                             utf16("caf^", little, false) + ">Nf3<" +
                                             utf16("~f3", little, false) + ">");
    }
  }
}

TEST(Encoding, Windows1252IsTheFallback) {
  EXPECT_EQ(words_with_bytes("[0:03] caf\xE9 it\x92s \x93ok\x94"),
            "caf\xC3\xA9<caf\xE9>it's<it\x92s>ok<ok>");
}

TEST(Encoding, OneBrokenByteDoesNotSpoilUtf8) {
  EXPECT_EQ(words_with_bytes("[0:03] \xC3\xA9t\xC3\xA9 b\xFFr"),
            "\xC3\xA9t\xC3\xA9<\xC3\xA9t\xC3\xA9>b\xEF\xBF\xBDr<b\xFFr>");
}

TEST(Encoding, BytesThatAreNoTextAreRefused) {
  const auto message = [](std::string_view bytes) {
    const auto r = read_transcript(bytes, "x.txt");
    return r ? "read" : r.error().message;
  };
  EXPECT_EQ(message(std::string_view("[0:03] a\n[0:05] b\0c", 19)),
            "x.txt:2: expected text, found the byte 0x00");
  EXPECT_EQ(message("[0:03] a\x01"), "x.txt:1: expected text, found the byte 0x01");
  EXPECT_EQ(message("\x89PNG\r\n\x1A\n"), "x.txt:2: expected text, found the byte 0x1A");
  EXPECT_EQ(message("[0:03] a \x81"), "x.txt:1: expected text, found the byte 0x81");
  EXPECT_EQ(message(""), "x.txt:1: expected a transcript, found an empty file");
  EXPECT_EQ(message(" \r\n\n"), "x.txt:1: expected a transcript, found an empty file");
  EXPECT_EQ(message("\xEF\xBB\xBF"), "x.txt:1: expected a transcript, found an empty file");
}

TEST(Encoding, LinesAreCountedForEveryKindOfLineEnd) {
  for (const char* text : {"a\nb\nc", "a\r\nb\r\nc", "a\rb\rc"}) {
    const auto s = Source::decode(text, "t");
    ASSERT_TRUE(s);
    EXPECT_EQ(s->line(s->text().find('c')), 3u) << text;
    EXPECT_EQ(s->line(0), 1u);
  }
}

}  // namespace
}  // namespace plyscribe::transcript
