#include "lesson/pins.h"

#include <gtest/gtest.h>

namespace plyscribe::lesson {
namespace {

using resolve::Pin;

transcript::Transcript spoken(const std::string& words) {
  const auto t = transcript::read_transcript("[0:01] " + words + "\n", "lesson.txt");
  EXPECT_TRUE(t) << words;
  return *t;
}

TEST(ReadPins, TakesStartAndSide) {
  const auto both =
      read_pins(R"({"schema": "plyscribe.pins/1", "start": "e4 e5", "side": "black"})", "p");
  ASSERT_TRUE(both) << both.error().message;
  EXPECT_EQ(both->start, "e4 e5");
  EXPECT_EQ(both->side, "black");
  const auto none = read_pins(R"({"schema": "plyscribe.pins/1"})", "p");
  ASSERT_TRUE(none);
  EXPECT_TRUE(none->start.empty() && none->side.empty() && none->words.empty());
}

TEST(ReadPins, TakesTheThreeKinds) {
  const auto pins = read_pins(R"({"schema": "plyscribe.pins/1", "pins": [
      {"first_word": 4, "last_word": 7, "t": 1.5, "heard": "knight to f3", "is": "move",
       "san": "Nf3"},
      {"first_word": 9, "last_word": 10, "t": 3, "heard": "d4", "is": "line",
       "line": ["e4", "e5", "d4"]},
      {"first_word": 11, "last_word": 12, "t": 4.25, "heard": "before", "is": "no move"}]})",
                              "p");
  ASSERT_TRUE(pins) << pins.error().message;
  ASSERT_EQ(pins->words.size(), 3u);
  EXPECT_EQ(pins->words[0].pin.kind, Pin::Kind::kMove);
  EXPECT_EQ(pins->words[0].pin.san, "Nf3");
  EXPECT_EQ(pins->words[0].pin.first_word, 4u);
  EXPECT_EQ(pins->words[0].pin.last_word, 7u);
  EXPECT_EQ(pins->words[0].t, 1.5);
  EXPECT_EQ(pins->words[0].heard, "knight to f3");
  EXPECT_EQ(pins->words[1].pin.kind, Pin::Kind::kLine);
  EXPECT_EQ(pins->words[1].pin.line, (std::vector<std::string>{"e4", "e5", "d4"}));
  EXPECT_EQ(pins->words[2].pin.kind, Pin::Kind::kNoMove);
}

TEST(ReadPins, RefusesWhatItWouldHaveToIgnore) {
  const std::string head = R"({"schema": "plyscribe.pins/1", "pins": [{)";
  const std::string place = R"("first_word": 1, "last_word": 2, "t": 0, "heard": "e4", )";
  struct Row {
    std::string json, message;
  };
  for (const Row& row : {
           Row{"", "p:1: expected JSON"},
           Row{"{\n\n", "p:3: expected JSON"},
           Row{R"({"schema": 1e999})", "p:1: expected JSON without numbers of over 300 digits"},
           Row{"[]", "p:1: expected an object with \"schema\": \"plyscribe.pins/1\""},
           Row{"{}", "p:1: expected an object with \"schema\": \"plyscribe.pins/1\""},
           Row{R"({"schema": 7})", "p:schema: expected a text"},
           Row{R"({"schema": "plyscribe.pins/1", "moves": []})",
               "p:moves: expected only the keys start, side and pins"},
           Row{R"({"schema": "plyscribe.pins/1", "side": "red"})",
               "p:side: expected white or black"},
           Row{R"({"schema": "plyscribe.pins/1", "start": 4})", "p:start: expected a text"},
           Row{R"({"schema": "plyscribe.pins/1", "pins": {}})", "p:pins: expected a list"},
           Row{head + "}]}", "p:pins[0]: expected the key \"first_word\""},
           Row{head + R"("first_word": -1}]})",
               "p:pins[0].first_word: expected the number of a word"},
           Row{head + R"("first_word": 2, "last_word": 2}]})",
               "p:pins[0].last_word: expected a word after first_word"},
           Row{head + place + R"("is": "idea"}]})",
               "p:pins[0].is: expected \"move\", \"line\" or \"no move\""},
           Row{head + place + R"("is": "move"}]})", "p:pins[0]: expected the key \"san\""},
           Row{head + place + R"("is": "move", "san": ""}]})", "p:pins[0].san: expected a move"},
           Row{head + place + R"("is": "line", "line": []}]})",
               "p:pins[0].line: expected a list of moves"},
           Row{head + place + R"("is": "line", "line": ["e4", 5]}]})",
               "p:pins[0].line[1]: expected a text"},
           Row{head + place + R"("is": "no move", "san": "e4"}]})",
               "p:pins[0].san: expected no more keys for a pin that is \"no move\""},
       }) {
    const auto pins = read_pins(row.json, "p");
    ASSERT_FALSE(pins) << row.json;
    EXPECT_EQ(pins.error().message, row.message) << row.json;
  }
}

TEST(WritePins, ReadsBackTheSame) {
  const auto transcript = spoken("Well, e4 e5 and the knight goes \"out\" to f3.");
  Pins pins;
  pins.start = "Grünfeld \"Exchange\"";
  pins.side = "white";
  pins.words = {pinned_words({5, 9, Pin::Kind::kLine, "", {"e4", "e5", "Nf3"}}, transcript),
                pinned_words({1, 2, Pin::Kind::kMove, "e4", {}}, transcript),
                pinned_words({0, 1, Pin::Kind::kNoMove, "", {}}, transcript)};
  EXPECT_EQ(pins.words[0].heard, "knight goes out to");
  const std::string written = write_pins(pins);
  const auto read = read_pins(written, "p");
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->start, pins.start);
  EXPECT_EQ(read->side, pins.side);
  ASSERT_EQ(read->words.size(), pins.words.size());
  for (std::size_t i = 0; i < pins.words.size(); ++i) {
    EXPECT_EQ(read->words[i].pin.kind, pins.words[i].pin.kind) << i;
    EXPECT_EQ(read->words[i].pin.first_word, pins.words[i].pin.first_word) << i;
    EXPECT_EQ(read->words[i].pin.last_word, pins.words[i].pin.last_word) << i;
    EXPECT_EQ(read->words[i].pin.san, pins.words[i].pin.san) << i;
    EXPECT_EQ(read->words[i].pin.line, pins.words[i].pin.line) << i;
    EXPECT_EQ(read->words[i].t, pins.words[i].t) << i;
    EXPECT_EQ(read->words[i].heard, pins.words[i].heard) << i;
  }
  EXPECT_EQ(write_pins(*read), written);
  EXPECT_EQ(write_pins({}), "{\n \"schema\": \"plyscribe.pins/1\"\n}\n");
}

TEST(PinsFor, RefusesPinsOfAnotherTranscript) {
  const auto transcript = spoken("Well, e4 e5 and the knight goes out.");
  Pins pins;
  pins.words = {pinned_words({1, 2, Pin::Kind::kMove, "e4", {}}, transcript)};
  const auto same = pins_for(pins, transcript, "p");
  ASSERT_TRUE(same) << same.error().message;
  ASSERT_EQ(same->size(), 1u);
  EXPECT_EQ((*same)[0].san, "e4");

  const auto other = pins_for(pins, spoken("Right, d4 d5."), "p");
  ASSERT_FALSE(other);
  EXPECT_EQ(other.error().message,
            "p:pins[0]: expected \"e4\" at word 1, where this transcript has \"d4\"; the pin "
            "doesn't belong here");
  const auto shorter = pins_for(pins, spoken("Right."), "p");
  ASSERT_FALSE(shorter);
  EXPECT_EQ(shorter.error().message,
            "p:pins[0]: expected words of this transcript, which has 1; the pin doesn't belong "
            "here");
}

}  // namespace
}  // namespace plyscribe::lesson
