// The program as its user meets it: what it returns and says for a command line.
#include "app/commands.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "app/files.h"
#include "lesson/lesson_json.h"
#include "publish/pgn_reader.h"

namespace plyscribe::app {
namespace {

namespace fs = std::filesystem;

const fs::path kLesson = fs::path(PLYSCRIBE_SOURCE_DIR) / "corpus/lessons/two-knights";

struct Outcome {
  Status status;
  std::string out, err;
};

Outcome plyscribe(const std::vector<std::string>& arguments) {
  std::vector<const char*> argv{"plyscribe"};
  for (const std::string& a : arguments) argv.push_back(a.c_str());
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  const Status status = run(static_cast<int>(argv.size()), argv.data());
  std::string out = testing::internal::GetCapturedStdout();
  return {status, std::move(out), testing::internal::GetCapturedStderr()};
}

class Command : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(testing::TempDir()) /
              ("plyscribe_command_" +
               std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string file(const std::string& name, const std::string& bytes) const {
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return (folder_ / name).string();
  }

  // A lesson's first paragraphs, as a file.
  std::string beginning(const std::string& form) const {
    const std::string whole = *read_file((kLesson / form).string());
    return file(form, whole.substr(0, whole.find("\n\n[", 2500) + 1));
  }

  // One line on standard error that says what was expected, nothing on standard output.
  static void expect_refusal(const std::vector<std::string>& arguments, Status status,
                             const std::string& place) {
    std::vector<std::string> quiet = arguments;  // a slow build may say how far it has come
    if (status == Status::kUnreadable && arguments.front() != "score") quiet.push_back("-q");
    const Outcome o = plyscribe(quiet);
    const std::string what = testing::PrintToString(arguments) + " said " + o.err;
    EXPECT_EQ(o.status, status) << what;
    EXPECT_EQ(o.out, "") << what;
    EXPECT_EQ(o.err.rfind("plyscribe: " + place, 0), 0u) << what;
    EXPECT_EQ(o.err.find('\n'), o.err.size() - 1) << what;
    if (status == Status::kUnreadable) {
      EXPECT_NE(o.err.find("expected"), std::string::npos) << what;
    }
  }

  fs::path folder_;
};

TEST_F(Command, ThatCannotBeReadReturnsTwo) {
  for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
           {},
           {"undo"},
           {"extract"},
           {"extract", "a", "b"},
           {"extract", "a", "--side", "red"},
           {"extract", "a", "--format", "doc"},
           {"extract", "a", "--json", "--pgn"},
           {"extract", "a", "--json", "--outline"},
           {"extract", "a", "--pgn", "--outline"},
           {"extract", "a", "--colour"},
           {"publish"},
           {"publish", "a", "--as", "doc"},
           {"publish", "a", "--as", "pgn,doc"},
           {"score", "gold.json"},
           {"review"},
           {"review", "a", "--port", "70000"},
       }) {
    expect_refusal(arguments, Status::kUsage, "");
  }
}

TEST_F(Command, WithAnInputThatCannotBeReadReturnsThree) {
  const std::string lesson = beginning("heard.txt");
  const std::string gold = (kLesson / "gold.json").string();
  const std::string empty = file("empty.txt", "");
  const std::string talk = file("talk.txt", "[0:03] Good evening everyone.\n");
  const std::string pins = file("pins.json", "{\"schema\": \"plyscribe.pins/1\", \"move\": 1}");
  const std::string out = (folder_ / "out").string();
  struct Row {
    std::vector<std::string> arguments;
    std::string place;
  };
  for (const Row& row : std::vector<Row>{
           {{"extract", "/no/such/file"}, "/no/such/file: "},
           {{"extract", folder_.string()}, folder_.string() + ": "},
           {{"extract", empty}, empty + ":1: "},
           {{"extract", file("prose.txt", "No stamps here.\nNor here.\n")}, ""},
           {{"extract", file("bytes.bin", std::string("\0\1\2\3", 4))}, ""},
           {{"extract", talk}, talk + ":1: "},
           {{"extract", talk, "--out", out}, talk + ":1: "},
           {{"extract", lesson, "--start", "xyzzy plugh", "--out", out}, "--start"},
           {{"extract", lesson, "--pins", pins, "--out", out}, pins + ":move: "},
           {{"extract", lesson, "--pins", "/no/pins", "--out", out}, "/no/pins: "},
           {{"extract", lesson, "--out", empty}, empty + ": "},
           {{"extract", lesson, "--out", empty + "/below"}, empty + "/below: "},
           {{"extract", lesson, "--link", "https://a.invalid", "--out", out}, "--link: "},
           {{"publish", "/no/lesson", "--as", "pgn"}, "/no/lesson: "},
           {{"publish", empty, "--as", "pgn", "--out", out}, empty + ":1: "},
           {{"score", "/no/gold", empty}, "/no/gold: "},
           {{"score", empty, empty}, empty + ":1: "},
           {{"score", gold, "/no/pgn"}, "/no/pgn: "},
           {{"score", gold, file("bad.pgn", "1. e4\n\nKe3")}, (folder_ / "bad.pgn:3: ").string()},
       }) {
    expect_refusal(row.arguments, Status::kUnreadable, row.place);
  }
  EXPECT_FALSE(fs::exists(out));
}

TEST_F(Command, ExtractWritesTheGameFileAndTheLesson) {
  const Outcome o = plyscribe(
      {"extract", (kLesson / "heard.txt").string(), "--out", folder_.string(), "--media", "m:1"});
  ASSERT_EQ(o.status, Status::kDone) << o.err;
  EXPECT_EQ(o.out, "");
  EXPECT_NE(o.err.find(" files written to "), std::string::npos) << o.err;
  const auto json = lesson::read_json(*read_file((folder_ / "lesson.json").string()), "json");
  ASSERT_TRUE(json) << json.error().message;
  EXPECT_EQ(json->media, "m:1");
  const auto games = publish::read_pgn(*read_file((folder_ / "lesson.pgn").string()), "pgn");
  ASSERT_TRUE(games) << games.error().message;
  EXPECT_EQ((*games)[0].nodes.size(), json->start.moves.size() + json->nodes.size());
}

TEST_F(Command, PublishWritesFromTheLessonWhatExtractWrote) {
  const std::string out = (folder_ / "out").string(), again = (folder_ / "again").string();
  const std::string lesson = beginning("script.txt");
  ASSERT_EQ(plyscribe({"extract", lesson, "--out", out}).status, Status::kDone);
  const std::string json = out + "/lesson.json";
  const Outcome all = plyscribe({"publish", json, "--out", again, "--transcript", lesson});
  ASSERT_EQ(all.status, Status::kDone) << all.err;
  std::size_t files = 0;
  for (const auto& entry : fs::recursive_directory_iterator(again)) {
    if (!entry.is_regular_file()) continue;
    ++files;
    const std::string name = fs::relative(entry.path(), again).string();
    EXPECT_EQ(*read_file(entry.path().string()), *read_file(out + "/" + name)) << name;
    EXPECT_NE(all.err.find("wrote " + again + "/" + name), std::string::npos) << name;
  }
  EXPECT_GE(files, 1u);
  expect_refusal({"publish", json, "--as", "captions"}, Status::kUnreadable, "--as captions: ");
  expect_refusal({"publish", json, "--as", "pgn,games"}, Status::kUnreadable, "--out: ");
  expect_refusal({"publish", json, "--as", "captions", "--pieces", "Esperanto"}, Status::kUsage,
                 "");
  expect_refusal(
      {"publish", json, "--as", "captions", "--transcript", (kLesson / "heard.txt").string()},
      Status::kUnreadable, "--transcript: ");
  const Outcome pgn = plyscribe({"publish", json, "--as", "pgn"});
  EXPECT_EQ(pgn.out, *read_file(out + "/lesson.pgn"));
  EXPECT_EQ(pgn.err, "");
}

TEST_F(Command, ExtractPrintsTheGameFileIntoAPipeAndTheLessonOnRequest) {
  const std::string lesson = beginning("heard.txt");
  const Outcome pgn = plyscribe({"extract", lesson});
  EXPECT_EQ(pgn.out.rfind("[Event \"", 0), 0u) << pgn.out;
  EXPECT_EQ(plyscribe({"extract", lesson, "--pgn"}).out, pgn.out);
  const Outcome json = plyscribe({"extract", lesson, "--json"});
  EXPECT_TRUE(lesson::read_json(json.out, "json")) << json.out;
  const Outcome outline = plyscribe({"extract", lesson, "--outline", "--out", folder_.string()});
  EXPECT_NE(outline.out.find(" moves: "), std::string::npos) << outline.out;
  EXPECT_EQ(*read_file((folder_ / "lesson.pgn").string()), pgn.out);
}

TEST_F(Command, ScoreOfTheGoldGameFileIsFull) {
  const Outcome o =
      plyscribe({"score", "-v", (kLesson / "gold.json").string(), (kLesson / "gold.pgn").string()});
  EXPECT_EQ(o.status, Status::kDone) << o.err;
  EXPECT_EQ(o.out, "P 100.0  R 100.0  F1 100.0  (gold 149, hit 149, extra 0, free 5)\n");
}

TEST_F(Command, HelpAndVersionGoToStandardOutput) {
  for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
           {"--help"}, {"--version"}, {"extract", "--help"}, {"publish", "-h"}, {"score", "-h"}}) {
    const Outcome o = plyscribe(arguments);
    EXPECT_EQ(o.status, Status::kDone) << testing::PrintToString(arguments);
    EXPECT_NE(o.out, "") << testing::PrintToString(arguments);
    EXPECT_EQ(o.err, "") << testing::PrintToString(arguments);
  }
}

}  // namespace
}  // namespace plyscribe::app
