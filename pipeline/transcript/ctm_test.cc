// Checks against NIST's description of CTM, the time-marked conversation input of its scoring
// tools, from memory; the files are our own.
#include <gtest/gtest.h>

#include "transcript/test_reading.h"

namespace plyscribe::transcript {
namespace {

std::string show_guesses(const Result<Transcript>& r) {
  if (!r) return "! " + r.error().message;
  std::string s;
  for (const Word& w : r->words) {
    s += fmt::format("{}{}:{:g}", s.empty() ? "" : " ", w.text, w.confidence);
    for (const Alternative& a : w.alternatives) s += fmt::format("|{}:{:g}", a.text, a.confidence);
  }
  return s;
}

constexpr const char* kAccepts[][2] = {
    {";; a comment\n\nd93 A 3.10 0.25 so 0.93\nd93 A 3.35 0.20 after\n", "so=3.10 after=3.35"},
    {"d93 1 3.10 .25 so 0.93 lex spk1\r\nd93 1 3.35 0.2 c5 NA\r\n", "so=3.10 c5=3.35"},
    {"d93\tA  3.1\t0.2 so\n", "so=3.10"},
    {"d93 A 1 .1 so\nd93 A 1.2 .1 [NOISE]\nd93 A 1.3 .1 <sil>\nd93 A 1.4 .1 @\nd93 A 1.5 .1 ok\n",
     "so=1.00 ok=1.50"},
    // Channels are spoken at the same time.
    {"d93 A 1 .1 so\nd93 A 3 .1 ok\nd93 B 2 .1 yes\n", "so=1.00 yes=2.00 ok=3.00"},
    // A clock that jumped back: order stays, times rise.
    {"d93 A 1 .1 a\nd93 A 3 .1 b\nd93 A 2 .1 c\nd93 A 4 .1 d\n", "a=1.00 b=2.15 c=2.50 d=4.00"},
};

TEST(Ctm, Accepts) {
  for (const auto& r : kAccepts) {
    const auto t = read_as(Format::kCtm, r[0]);
    EXPECT_EQ(show_times(t), r[1]) << r[0];
    if (t) {
      EXPECT_EQ(find_fault(*t, r[0]), "") << r[0];
    }
  }
}

TEST(Ctm, Alternations) {
  EXPECT_EQ(show_guesses(read_as(Format::kCtm,
                                 "d93 A 1 .1 so .9\nd93 A * * <ALT_BEGIN>\nd93 A 1.1 .1 c .5\nd93 "
                                 "A 1.2 .1 five .6\nd93 A * * <ALT>\n"
                                 "d93 A 1.1 .1 see .3\nd93 A 1.2 .1 fife .2\nd93 A * * <ALT>\nd93 "
                                 "A 1.1 .2 @\nd93 A * * <ALT_END>\nd93 A 2 .1 ok .8\n")),
            "so:0.9 c:0.5|see:0.2 five:0.6|fife:0.2 ok:0.8");
}

TEST(Ctm, Rejects) {
  constexpr const char* kRejects[][2] = {
      {"d93 A 1 .1 so\nd93 A 2 .1\n", "t:2: expected file, channel, start, duration and word"},
      {"d93 A 1 .1 so\nd93 A x .1 so\n", "t:2: expected start and duration in seconds, found x .1"},
      {"d93 A 1 .1 so\nd94 A 2 .1 so\n", "t:2: expected words of one recording, d93; found d94"},
      {"d93 A 100 .1 so\nd93 A 2 .1 so\n", "t:2: expected a start not before 1:40, found 0:02"},
      {"d93 A * * <ALT>\n", "t:1: expected <ALT_BEGIN> before <ALT> and <ALT_END>"},
      {"d93 A * * <ALT_BEGIN>\nd93 A * * <ALT_BEGIN>\n",
       "t:2: expected <ALT> or <ALT_END>, found <ALT_BEGIN>"},
      {"d93 A * * <ALT_BEGIN>\nd93 A 1 .1 so\n",
       "t:3: expected <ALT_END>, found the end of the file"},
      {";; nothing\n", "t:1: expected a transcript with words in it"},
  };
  for (const auto& r : kRejects)
    EXPECT_EQ(show_words(read_as(Format::kCtm, r[0])), std::string("! ") + r[1]) << r[0];
}

TEST(Ctm, CaptionsAreCutAtSilences) {
  EXPECT_EQ(show_captions(read_as(Format::kCtm, "d A 1 .5 a\nd A 1.6 .4 b\nd A 3.5 .5 c\n")),
            "1-2 3.5-4");
}

}  // namespace
}  // namespace plyscribe::transcript
