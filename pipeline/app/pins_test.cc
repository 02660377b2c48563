#include "app/pins.h"

#include <gtest/gtest.h>

namespace plyscribe::app {
namespace {

TEST(ReadPins, TakesStartAndSide) {
  const auto both =
      read_pins(R"({"schema": "plyscribe.pins/1", "start": "e4 e5", "side": "black"})", "p");
  ASSERT_TRUE(both) << both.error().message;
  EXPECT_EQ(both->start, "e4 e5");
  EXPECT_EQ(both->side, "black");
  const auto none = read_pins(R"({"schema": "plyscribe.pins/1"})", "p");
  ASSERT_TRUE(none);
  EXPECT_TRUE(none->start.empty() && none->side.empty());
}

TEST(ReadPins, RefusesWhatItWouldHaveToIgnore) {
  struct Row {
    const char *json, *message;
  };
  for (const Row& row : {
           Row{"", "p:1: expected JSON"},
           Row{"{\n\n", "p:3: expected JSON"},
           Row{"[]", "p:1: expected an object with \"schema\": \"plyscribe.pins/1\""},
           Row{"{}", "p:1: expected an object with \"schema\": \"plyscribe.pins/1\""},
           Row{R"({"schema": 7})", "p:schema: expected a text"},
           Row{R"({"schema": "plyscribe.pins/1", "moves": []})",
               "p:moves: expected only the pins start and side"},
           Row{R"({"schema": "plyscribe.pins/1", "side": "red"})",
               "p:side: expected white or black"},
           Row{R"({"schema": "plyscribe.pins/1", "start": 4})", "p:start: expected a text"},
       }) {
    const auto pins = read_pins(row.json, "p");
    ASSERT_FALSE(pins) << row.json;
    EXPECT_EQ(pins.error().message, row.message) << row.json;
  }
}

}  // namespace
}  // namespace plyscribe::app
