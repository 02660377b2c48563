#include "transcript/clock.h"

#include <gtest/gtest.h>

#include <vector>

#include "transcript/clock_repair.h"
#include "transcript/cue_timing.h"

namespace plyscribe::transcript {
namespace {

struct Row {
  const char* text;
  double seconds;
};

TEST(Clock, Accepts) {
  constexpr Row kRows[] = {
      {"0:00", 0},
      {"0:03", 3},
      {"1:05", 65},
      {"01:05.5", 65.5},
      {"75:10", 4510},
      {"1:02:03", 3723},
      {"00:00:01,250", 1.25},
      {"10:00.001", 600.001},
      {"120:00:00", 432000},
      {"0:01.123456789012", 1.123456789},
  };
  for (const Row& r : kRows) {
    const auto t = parse_clock(r.text);
    ASSERT_TRUE(t) << r.text;
    EXPECT_NEAR(*t, r.seconds, 1e-9) << r.text;
  }
}

TEST(Clock, Rejects) {
  for (const char* s : {"", "5", ":05", "1:5", "1:60", "1:60:00", "1:00:75", "1:05.", "1:05 ",
                        " 1:05", "a:05", "1:055", "1:02:03:04", "-1:05", "1000:00", "1.05"}) {
    EXPECT_FALSE(parse_clock(s)) << s;
  }
}

TEST(Clock, DecimalsArePlain) {
  EXPECT_EQ(parse_decimal("12.5"), 12.5);
  EXPECT_EQ(parse_decimal(".5"), 0.5);
  EXPECT_EQ(parse_decimal("5."), 5.0);
  for (const char* s : {"", ".", "-1", "1e5", "1,5", "nan", "inf", "0x10", "1 ", "1.2.3"})
    EXPECT_FALSE(parse_decimal(s)) << s;
}

TEST(Clock, IsShown) {
  EXPECT_EQ(show_clock(65), "1:05");
  EXPECT_EQ(show_clock(3723.5), "1:02:03.500");
}

TEST(CueTiming, Accepts) {
  const auto t = parse_cue_timing(" 00:00:03,000 -->00:05.500 align:start X1:40");
  ASSERT_TRUE(t);
  EXPECT_EQ(t->start, 3);
  EXPECT_EQ(t->end, 5.5);
}

TEST(CueTiming, Rejects) {
  for (const char* s :
       {"", "-->", "0:03 -->", "--> 0:03", "0:03 -> 0:05", "0:03 --> 0:0x", "0:61 --> 0:05"}) {
    EXPECT_FALSE(parse_cue_timing(s)) << s;
  }
}

std::string mended(std::vector<double> starts) {
  std::vector<WordTime> times;
  for (const double s : starts) times.push_back({s, s + 0.3});
  mend_clock(times);
  std::string shown;
  double last = 0;
  for (const WordTime& t : times) {
    EXPECT_GE(t.start, last);
    EXPECT_GE(t.end, t.start);
    last = t.start;
    shown += t.mended ? 'm' : '.';
  }
  return shown;
}

TEST(ClockRepair, LeavesRisingTimesAlone) {
  EXPECT_EQ(mended({}), "");
  EXPECT_EQ(mended({1, 2, 2, 3}), "....");
}

TEST(ClockRepair, PoolsTimesThatContradictEachOther) {
  EXPECT_EQ(mended({1, 2, 1.5, 3}), ".mm.");
  EXPECT_EQ(mended({10, 11, 12, 13, 11, 12, 13, 14}), "...mm...");
  EXPECT_EQ(mended({10, 11, 13, 11, 12, 13}), "..mm..");
  EXPECT_EQ(mended({5, 4, 3, 2, 1}), "mmmmm");
}

}  // namespace
}  // namespace plyscribe::transcript
