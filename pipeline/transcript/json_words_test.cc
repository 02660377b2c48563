#include <gtest/gtest.h>

#include "transcript/test_reading.h"

namespace plyscribe::transcript {
namespace {

struct Row {
  const char* shape;
  const char* text;
  const char* times;
};

constexpr Row kAccepts[] = {
    // Words.
    {"words",
     R"({"words":[{"word":"so","start":1.5,"end":2,"confidence":0.9},{"word":"c5","start":2,"end":2.5}]})",
     "so=1.50 c5=2.00"},
    {"top-level array, other names",
     R"([{"w":"so","s":1.5,"e":2,"p":0.9},{"w":"c5","s":2,"e":2.5}])", "so=1.50 c5=2.00"},
    {"from and to", R"({"result":[{"token":"so","from":1.5,"to":2}]})", "so=1.50"},
    {"start_time as text", R"({"items":[{"value":"so","start_time":"1.5","end_time":"2.0"}]})",
     "so=1.50"},
    {"startTime with unit",
     R"({"words":[{"word":"so","startTime":"1.5s","endTime":"2s"},{"word":"c5","startTime":"2500ms","endTime":"PT3S"}]})",
     "so=1.50 c5=2.50"},
    {"duration",
     R"([{"text":"so","start":1.5,"duration":0.5},{"text":"c5","start":2,"duration":0.5}])",
     "so=1.50 c5=2.00"},
    {"clock times", R"([{"text":"so","start":"0:01.5","end":"00:00:02,000"}])", "so=1.50"},
    {"milliseconds by key", R"([{"text":"so","start_ms":1500,"end_ms":2000}])", "so=1.50"},
    {"milliseconds by size",
     R"([{"text":"so","start":1500,"end":2000},{"text":"c5","start":2000,"end":2400}])",
     "so=1.50 c5=2.00"},
    {"ticks by size",
     R"([{"text":"so","offset":15000000,"duration":5000000},{"text":"c5","offset":20000000,"duration":4000000}])",
     "so=1.50 c5=2.00"},
    {"pair of times", R"([{"text":"so","timestamp":[1.5,2]},{"text":"c5","timestamp":[2,null]}])",
     "so=1.50 c5=2.00"},
    {"object of times", R"([{"text":"so","time":{"start":1.5,"end":2}}])", "so=1.50"},
    {"tuples", R"([["so",1.5,2],["c5",2,2.5,0.7]])", "so=1.50 c5=2.00"},
    {"nested deep", R"({"a":{"b":[{"results":{"words":[{"word":"so","start":1.5,"end":2}]}}]}})",
     "so=1.50"},
    {"JSON lines",
     "{\"result\":[{\"word\":\"so\",\"start\":1.5,\"end\":2}],\"text\":\"so\"}\n{\"result\":[{"
     "\"word\":\"c5\",\"start\":2,\"end\":3}],\"text\":\"c5\"}\n{\"text\":\"\"}\n",
     "so=1.50 c5=2.00"},
    {"punctuation without times",
     R"({"results":{"items":[{"start_time":"1.5","end_time":"2","alternatives":[{"content":"so"}]},{"alternatives":[{"content":","}]},{"start_time":"2","end_time":"3","alternatives":[{"content":"c5"}]}]}})",
     "so=1.50 c5=2.00"},
    {"elements of a monologue",
     R"({"monologues":[{"speaker":0,"elements":[{"type":"text","value":"so","ts":1.5,"end_ts":2},{"type":"punct","value":" "},{"type":"text","value":"c5","ts":2,"end_ts":3}]}]})",
     "so=1.50 c5=2.00"},
    {"word pieces",
     R"([{"text":" so","start":1,"end":2},{"text":" N","start":2,"end":3},{"text":"f3","start":3,"end":4}])",
     "so=1.00 Nf3=2.00"},
    {"clock that jumped back",
     R"([{"word":"a","start":1,"end":1.1},{"word":"b","start":3,"end":3.1},{"word":"c","start":2,"end":2.1},{"word":"d","start":4,"end":4.1}])",
     "a=1.00 b=2.15 c=2.50 d=4.00"},
    // Segments.
    {"segments",
     R"({"text":"x","segments":[{"start":1,"end":3,"text":" four four"},{"start":3,"end":5,"text":" four four"}]})",
     "four@1.00 four@2.00 four@3.00 four@4.00"},
    {"segments with words",
     R"({"segments":[{"start":1,"end":3,"text":"so c5","words":[{"word":" so","start":1.5,"end":2},{"word":" c5","start":2,"end":2.5}]}]})",
     "so=1.50 c5=2.00"},
    {"milliseconds of segments",
     R"([{"start":1000,"end":3000,"text":"four four"},{"start":3000,"end":5000,"text":"four four"}])",
     "four@1.00 four@2.00 four@3.00 four@4.00"},
    {"clock times beside offsets",
     R"({"transcription":[{"timestamps":{"from":"00:00:01,000","to":"00:00:03,000"},"offsets":{"from":1000,"to":3000},"text":" four four"}]})",
     "four@1.00 four@2.00"},
    {"segments out of order",
     R"([{"start":3,"end":5,"text":"four four"},{"start":1,"end":3,"text":"four four"}])",
     "four@1.00 four@2.00 four@3.00 four@4.00"},
};

TEST(JsonWords, Accepts) {
  for (const Row& r : kAccepts) {
    const auto t = read_transcript(r.text, "t");
    EXPECT_EQ(show_times(t), r.times) << r.shape;
    if (t) {
      EXPECT_EQ(t->format, Format::kJson) << r.shape;
      EXPECT_EQ(find_fault(*t, r.text), "") << r.shape;
    }
  }
}

TEST(JsonWords, Rejects) {
  constexpr const char* kRejects[][2] = {
      {"{\"words\":[\n{\"word\" 1}]}",
       "t:2: expected valid JSON, found a syntax error while parsing object separator - unexpected "
       "number literal; expected ':'"},
      {"{\"words\":[",
       "t:1: expected valid JSON, found a syntax error while parsing value - unexpected end of "
       "input; expected '[', '{', or a literal"},
      {"{\"words\":[]}",
       "t:1: expected JSON with timed words or segments, such as {\"words\": [{\"word\", "
       "\"start\", \"end\"}]}"},
      {"{\"words\":[{\"word\":\"a\"}]}",
       "t:1: expected JSON with timed words or segments, such as {\"words\": [{\"word\", "
       "\"start\", \"end\"}]}"},
      {"5", "t:1: expected a JSON object or array"},
      {"[{\"word\":\"a\",\"start\":-1,\"end\":2}]",
       "t:1: expected a start time of 0 or more, in seconds or milliseconds"},
      {"[{\"word\":\"a\",\"start\":100,\"end\":101},\n{\"word\":\"b\",\"start\":1,\"end\":2}]",
       "t:2: expected a start time not before 1:40, found 0:01"},
      {"[{\"word\":\".\",\"start\":1,\"end\":2}]", "t:1: expected a transcript with words in it"},
  };
  for (const auto& r : kRejects)
    EXPECT_EQ(show_words(read_as(Format::kJson, r[0])), std::string("! ") + r[1]) << r[0];
}

std::string show_guesses(const char* text) {
  const auto r = read_transcript(text, "t");
  if (!r) return "! " + r.error().message;
  std::string s;
  for (const Word& w : r->words) {
    s += fmt::format("{}{}{}:{:.2g}", s.empty() ? "" : " ", w.text, w.trail, w.confidence);
    for (const Alternative& a : w.alternatives)
      s += fmt::format("|{}:{:.2g}", a.text, a.confidence);
  }
  return s;
}

TEST(JsonWords, ConfidencesAndAlternatives) {
  EXPECT_EQ(show_guesses(
                R"([{"word":"so","start":1,"end":2,"conf":0.9},{"word":"c5","start":2,"end":3}])"),
            "so:0.9 c5:1");
  EXPECT_EQ(
      show_guesses(
          R"([{"word":"so","start":1,"end":2,"confidence":93},{"word":"c5","start":2,"end":3,"confidence":50}])"),
      "so:0.93 c5:0.5");
  EXPECT_EQ(show_guesses(R"([{"word":"so","start":1,"end":2,"score":-0.6931}])"), "so:0.5");
  EXPECT_EQ(show_guesses(R"([{"word":"so","start":1,"end":2,"confidence":1.0001}])"), "so:1");
  EXPECT_EQ(
      show_guesses(
          R"([{"word":"c","start":1,"end":2,"alternatives":["see",{"word":"sea","confidence":0.3},"c"]}])"),
      "c:1|sea:0.3|see:0");
  EXPECT_EQ(
      show_guesses(
          R"({"results":{"items":[{"start_time":"1","end_time":"2","alternatives":[{"confidence":"0.7","content":"c5"},{"confidence":"0.2","content":"see five"}]}]}})"),
      "c5:0.7|see five:0.2");
  EXPECT_EQ(
      show_guesses(
          R"({"results":[{"alternatives":[{"transcript":"knight d five","confidence":0.9,"words":[{"word":"knight","startTime":"1s","endTime":"2s"},)"
          R"({"word":"d","startTime":"2s","endTime":"3s"},{"word":"five","startTime":"3s","endTime":"4s"}]},{"transcript":"night be five","confidence":0.4}]}]})"),
      "knight:1|night:0.4 d:1|be:0.4 five:1");
}

TEST(JsonWords, EscapesKeepTheirPlace) {
  const std::string text =
      R"([{"start":1,"end":3,"text":"say \"d5\" \u2658f6 caf\u00e9 \ud83d\ude00 a\/b\nc \\"}])";
  const auto t = read_transcript(text, "t");
  ASSERT_TRUE(t) << t.error().message;
  EXPECT_EQ(show_words(t), "say \"d5\" Nf6 caf\xC3\xA9 \xF0\x9F\x98\x80 a/b c \\");
  std::string places;
  for (const Word& w : t->words) places += "[" + text.substr(w.offset, w.length) + "]";
  EXPECT_EQ(places, R"([say][d5][\u2658f6][caf\u00e9][\ud83d\ude00][a\/b][c][\\])");
}

TEST(JsonWords, TitleAndDuration) {
  const auto t = read_transcript(
      R"({"title":"The \u201cVienna\u201d","duration":9.5,"words":[{"word":"so","start":1,"end":2}]})",
      "t");
  ASSERT_TRUE(t);
  EXPECT_EQ(t->title, "The \"Vienna\"");
  EXPECT_EQ(t->duration, 9.5);
}

}  // namespace
}  // namespace plyscribe::transcript
