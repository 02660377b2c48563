// Checks against W3C, "Timed Text Markup Language" 1 (3rd edition) and 2. Section names and what
// they ask are from memory; the documents are our own.
#include <gtest/gtest.h>

#include "transcript/test_reading.h"
#include "transcript/ttml_time.h"

namespace plyscribe::transcript {
namespace {

std::string document(std::string_view body, std::string_view attributes = "",
                     std::string_view head = "") {
  return fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<tt xmlns=\"http://www.w3.org/ns/ttml\" "
      "xmlns:ttp=\"http://www.w3.org/ns/ttml#parameter\" "
      "xmlns:tts=\"http://www.w3.org/ns/ttml#styling\" "
      "xmlns:ttm=\"http://www.w3.org/ns/ttml#metadata\" xml:lang=\"en\" {}>\n{}{}</tt>",
      attributes, head, body);
}

struct TimeRow {
  const char* text;
  double seconds;
};

// Section "Time Value Expressions": clock-time and offset-time.
TEST(TtmlTime, Accepts) {
  TtmlClock clock;
  clock.frame_rate = 25;
  clock.sub_frame_rate = 2;
  clock.tick_rate = 10'000'000;
  constexpr TimeRow kRows[] = {
      {"00:01:02", 62}, {"01:00:00.25", 3600.25}, {"00:00:01:05", 1.2}, {"00:00:01:05.1", 1.22},
      {"62.5s", 62.5},  {"1500ms", 1.5},          {"1.5m", 90},         {"2h", 7200},
      {"50f", 2},       {"15000000t", 1.5},       {" 3s ", 3},          {"01:05", 65},
  };
  for (const TimeRow& r : kRows) {
    const auto t = parse_ttml_time(r.text, clock);
    ASSERT_TRUE(t) << r.text;
    EXPECT_NEAR(*t, r.seconds, 1e-9) << r.text;
  }
}

TEST(TtmlTime, Rejects) {
  for (const char* s : {"", "s", "5", "5 s", "-1s", "5x", "00:00:75", "00:00:01:", "00:00:01:x",
                        "00:00:01.5:05", "1:2:3:4:5"}) {
    EXPECT_FALSE(parse_ttml_time(s, {})) << s;
  }
}

// Sections "ttp:frameRate", "ttp:frameRateMultiplier", "ttp:subFrameRate", "ttp:tickRate".
TEST(TtmlTime, ClockOfADocument) {
  EXPECT_EQ(parse_ttml_clock("", "", "", "")->frame_rate, 30);
  EXPECT_EQ(parse_ttml_clock("", "", "", "")->tick_rate, 1);
  EXPECT_NEAR(parse_ttml_clock("30", "1000 1001", "", "")->frame_rate, 29.97, 0.001);
  EXPECT_EQ(parse_ttml_clock("25", "", "2", "")->tick_rate, 50);
  EXPECT_EQ(parse_ttml_clock("25", "", "", "1000")->tick_rate, 1000);
  for (const char* bad : {"0", "x", "-1"}) EXPECT_FALSE(parse_ttml_clock(bad, "", "", "")) << bad;
}

struct Row {
  const char* section;
  const char* body;
  const char* times;
  const char* captions;
};

constexpr Row kAccepts[] = {
    {"p: begin and end",
     "<body><div><p begin=\"1s\" end=\"3s\">four four</p><p begin=\"3s\" "
     "end=\"5s\">four</p></div></body>",
     "four@1.00 four@2.00 four@3.00", "1-3 3-5"},
    {"dur; the smaller of end and dur",
     "<body><div><p begin=\"1s\" dur=\"2s\">a</p><p begin=\"3s\" end=\"9s\" "
     "dur=\"2s\">b</p></div></body>",
     "a@1.00 b@3.00", "1-3 3-5"},
    {"times count from the element around",
     "<body begin=\"10s\"><div begin=\"5s\"><p begin=\"1s\" end=\"2s\">a</p></div></body>",
     "a@16.00", "16-17"},
    {"an element ends no later than the one around",
     "<body><div end=\"2s\"><p begin=\"1s\" end=\"9s\">a</p></div></body>", "a@1.00", "1-2"},
    {"timeContainer seq",
     "<body><div timeContainer=\"seq\"><p dur=\"2s\" begin=\"1s\">a</p><p "
     "dur=\"1s\">b</p></div></body>",
     "a@1.00 b@3.00", "1-3 3-4"},
    {"span with times of its own",
     "<body><div><p begin=\"1s\" end=\"5s\"><span begin=\"0s\">a</span> <span begin=\"1s\" "
     "end=\"2s\">b</span> <span begin=\"3s\">c</span></p></div></body>",
     "a=1.00 b=2.00 c=4.00", "1-5"},
    {"only the spans have times",
     "<body><div><p><span begin=\"1s\" end=\"2s\">a</span> <span begin=\"2s\" "
     "end=\"3s\">b</span></p></div></body>",
     "a=1.00 b=2.00", "1-3"},
    {"nested spans",
     "<body><div><p begin=\"1s\" end=\"5s\">a <span tts:color=\"red\">b <span "
     "begin=\"2s\">c</span></span></p></div></body>",
     "a@1.00 b@2.00 c=3.00", "1-5"},
    {"br parts words", "<body><div><p begin=\"1s\" end=\"3s\">four<br/>four</p></div></body>",
     "four@1.00 four@2.00", "1-3"},
    {"xml:space default and preserve",
     "<body><div><p begin=\"1s\" end=\"3s\">\n  four\n  four\n</p><p xml:space=\"preserve\" "
     "begin=\"3s\" end=\"4s\"> four  </p></div></body>",
     "four@1.00 four@2.00 four@3.00", "1-3 3-4"},
    {"references and CDATA",
     "<body><div><p begin=\"1s\" end=\"2s\">&#9816;f3</p><p begin=\"2s\" "
     "end=\"3s\"><![CDATA[a<b]]></p></div></body>",
     "Nf3@1.00 a<b@2.00", "1-2 2-3"},
    {"metadata and set are not spoken",
     "<body><div><metadata><ttm:desc>x</ttm:desc></metadata><p begin=\"1s\" "
     "end=\"2s\"><metadata>y</metadata><set begin=\"0s\"/>a</p></div></body>",
     "a@1.00", "1-2"},
    {"ruby (TTML2)",
     "<body><div><p begin=\"1s\" end=\"2s\"><span tts:ruby=\"container\"><span "
     "tts:ruby=\"base\">a</span><span tts:ruby=\"text\">b</span></span></p></div></body>",
     "a@1.00", "1-2"},
    {"prefixes", "<x:body><x:div><x:p begin=\"1s\" end=\"2s\">a</x:p></x:div></x:body>", "a@1.00",
     "1-2"},
    {"a p without words",
     "<body><div><p begin=\"0s\" end=\"1s\"> </p><p begin=\"1s\" end=\"2s\">a</p></div></body>",
     "a@1.00", "1-2"},
};

TEST(Ttml, Accepts) {
  for (const Row& r : kAccepts) {
    const std::string text = document(r.body);
    const auto t = read_transcript(text, "t");
    EXPECT_EQ(show_times(t), r.times) << r.section;
    EXPECT_EQ(show_captions(t), r.captions) << r.section;
    if (t) {
      EXPECT_EQ(t->format, Format::kTtml) << r.section;
      EXPECT_EQ(find_fault(*t, text), "") << r.section;
    }
  }
}

TEST(Ttml, FramesFollowTheParameters) {
  EXPECT_EQ(show_times(read_transcript(
                document("<body><div><p begin=\"00:00:01:05\" end=\"50f\">a</p></div></body>",
                         "ttp:frameRate=\"25\""),
                "t")),
            "a@1.20");
  EXPECT_EQ(show_times(read_transcript(
                document("<body><div><p begin=\"15000000t\" end=\"2s\">a</p></div></body>",
                         "ttp:tickRate=\"10000000\""),
                "t")),
            "a@1.50");
}

TEST(Ttml, TitleAndPlaces) {
  const std::string text = document(
      "<body><div><p begin=\"1s\" end=\"2s\">So&amp;so <span>caf\xC3\xA9</span> "
      "c5</p></div></body>",
      "", "<head><metadata><ttm:title>Two &amp; Knights</ttm:title></metadata></head>");
  const auto t = read_transcript(text, "t");
  ASSERT_TRUE(t);
  EXPECT_EQ(t->title, "Two & Knights");
  std::string places;
  for (const Word& w : t->words) places += "[" + text.substr(w.offset, w.length) + "]";
  EXPECT_EQ(places, "[So&amp;so][caf\xC3\xA9][c5]");
}

TEST(Ttml, Rejects) {
  const auto error = [](const std::string& text) {
    return show_words(read_as(Format::kTtml, text));
  };
  EXPECT_EQ(error(document("<body><div><p begin=\"soon\">a</p></div></body>")),
            "! t:3: expected a time such as 00:01:02.500 or 62.5s as begin, found soon");
  EXPECT_EQ(error(document("<body><div>\n<p>a</p></div></body>")),
            "! t:4: expected a begin on the <p>, on something around it or on its spans");
  EXPECT_EQ(error(document("<body><div></div></body>")),
            "! t:2: expected a <p> with words in it, found none");
  EXPECT_EQ(error("<tt>\n<body>\n</tt>"),
            "! t:3: expected well-formed XML, found: Start-end tags mismatch");
  EXPECT_EQ(error("<html><p begin=\"1s\">a</p></html>"),
            "! t:1: expected TTML with the root <tt>, found <html>");
  EXPECT_EQ(error(document("<body/>", "ttp:frameRate=\"0\"")),
            "! t:2: expected frame and tick rates above 0");
  EXPECT_EQ(
      error(document("<body><div><p begin=\"30s\">a</p>\n<p begin=\"1s\">b</p></div></body>")),
      "! t:4: expected a time not before 0:30, found 0:01");
}

}  // namespace
}  // namespace plyscribe::transcript
