// extract --pins: what a person settled is in the game file; what can't hold is said in one line.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "app/commands.h"

namespace plyscribe::app {
namespace {

namespace fs = std::filesystem;

struct Outcome {
  Status status;
  std::string out, err;
};

Outcome extract(const std::string& pins_json) {
  const fs::path folder = fs::path(testing::TempDir()) / "plyscribe_extract_pins";
  fs::create_directories(folder);
  const std::string lesson = (folder / "lesson.txt").string();
  const std::string pins = (folder / "pins.json").string();
  std::ofstream(lesson) << "[0:01] White plays Nf3 and Black plays Nc6. Then Bb5 and a6.\n";
  std::ofstream(pins) << pins_json;
  std::vector<const char*> argv{"plyscribe", "extract", lesson.c_str(), "--start",
                                "1. e4 e5",  "--pgn",   "--pins",       pins.c_str()};
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  const Status status = run(static_cast<int>(argv.size()), argv.data());
  std::string out = testing::internal::GetCapturedStdout();
  std::string err = testing::internal::GetCapturedStderr();
  for (std::size_t at; (at = err.find(pins)) != std::string::npos;)
    err.replace(at, pins.size(), "P");
  fs::remove_all(folder);
  return {status, std::move(out), std::move(err)};
}

TEST(ExtractPins, HoldsWhatCanHoldAndSaysWhatCannot) {
  const Outcome o = extract(R"({"schema": "plyscribe.pins/1", "pins": [
      {"first_word": 8, "last_word": 9, "t": 1, "heard": "Bb5", "is": "move", "san": "Bc4"},
      {"first_word": 2, "last_word": 3, "t": 1, "heard": "Nf3", "is": "line", "line": ["Ke3"]},
      {"first_word": 10, "last_word": 11, "t": 1, "heard": "a6", "is": "no move"}]})");
  EXPECT_EQ(o.status, Status::kDone);
  EXPECT_NE(o.out.find("3. Bc4"), std::string::npos) << o.out;
  EXPECT_EQ(o.out.find("a6"), std::string::npos) << o.out;
  EXPECT_EQ(o.err, "plyscribe: P:pins[1]: can't hold: move 1 of its line, Ke3, is not legal\n");
}

TEST(ExtractPins, RefusesPinsOfAnotherTranscript) {
  const Outcome o = extract(R"({"schema": "plyscribe.pins/1", "pins": [
      {"first_word": 8, "last_word": 9, "t": 1, "heard": "Bc5", "is": "no move"}]})");
  EXPECT_EQ(o.status, Status::kUnreadable);
  EXPECT_EQ(o.out, "");
  EXPECT_EQ(o.err,
            "plyscribe: P:pins[0]: expected \"Bc5\" at word 8, where this transcript has \"Bb5\"; "
            "the pin doesn't belong here\n");
}

}  // namespace
}  // namespace plyscribe::app
