// explain as its user meets it.
#include <gtest/gtest.h>

#include <fstream>
#include <string>
#include <vector>

#include "app/commands.h"
#include "app/files.h"

namespace plyscribe::app {
namespace {

struct Outcome {
  Status status;
  std::string out, err;
};

Outcome explain(const std::vector<std::string>& more) {
  const std::string whole = *read_file(std::string(PLYSCRIBE_SOURCE_DIR) +
                                       "/corpus/lessons/rook-behind-the-pawn/heard.txt");
  const std::string lesson = testing::TempDir() + "plyscribe_explain_" +
                             testing::UnitTest::GetInstance()->current_test_info()->name() + ".txt";
  std::ofstream(lesson, std::ios::binary) << whole.substr(0, whole.find("\n\n[", 1500) + 1);
  std::vector<const char*> argv{"plyscribe", "explain", lesson.c_str()};
  for (const std::string& m : more) argv.push_back(m.c_str());
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  const Status status = run(static_cast<int>(argv.size()), argv.data());
  std::string out = testing::internal::GetCapturedStdout();
  return {status, std::move(out), testing::internal::GetCapturedStderr()};
}

TEST(ExplainCommand, TellsOfTheMentionsAtATime) {
  const Outcome o = explain({"--at", "1:30"});
  EXPECT_EQ(o.status, Status::kDone) << o.err;
  for (const char* part : {"  words ", "  readings: ", "  weighed by ", "  outcomes over "}) {
    EXPECT_NE(o.out.find(part), std::string::npos) << o.out;
  }
  EXPECT_EQ(explain({"--at", "90"}).out, o.out);
}

TEST(ExplainCommand, RefusesTimesThatAreNone) {
  EXPECT_EQ(explain({}).status, Status::kUsage);
  EXPECT_EQ(explain({"--at", "soon"}).status, Status::kUsage);
  EXPECT_EQ(explain({"--at", "1:75"}).status, Status::kUsage);
  const Outcome late = explain({"--at", "100:00", "--quiet"});
  EXPECT_EQ(late.status, Status::kUnreadable);
  EXPECT_EQ(late.out, "");
  EXPECT_EQ(late.err.rfind("plyscribe: --at 100:00: expected a time at which words are spoken", 0),
            0u)
      << late.err;
}

}  // namespace
}  // namespace plyscribe::app
