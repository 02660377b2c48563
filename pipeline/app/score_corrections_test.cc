// score --corrections as its user meets it.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "app/commands.h"

namespace plyscribe::app {
namespace {

const std::string kLesson =
    std::string(PLYSCRIBE_SOURCE_DIR) + "/corpus/lessons/rook-behind-the-pawn/";

struct Outcome {
  Status status;
  std::string out, err;
};

Outcome score(const std::string& gold, const std::string& lesson) {
  const char* argv[] = {"plyscribe", "score", "-v", "--corrections", gold.c_str(), lesson.c_str()};
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  const Status status = run(6, argv);
  std::string out = testing::internal::GetCapturedStdout();
  return {status, std::move(out), testing::internal::GetCapturedStderr()};
}

TEST(ScoreCorrections, ListsEachAndCountsThem) {
  const Outcome o = score(kLesson + "gold.json", kLesson + "heard.txt");
  EXPECT_EQ(o.status, Status::kDone) << o.err;
  const std::string last = o.out.substr(o.out.rfind("corrections "));
  const auto fixes = std::count(o.out.begin(), o.out.end(), '\n') - 1;
  EXPECT_EQ(last.rfind("corrections " + std::to_string(fixes) + "  spoken edges ", 0), 0u) << o.out;
  EXPECT_NE(last.find("  left 0\n"), std::string::npos) << o.out;
}

TEST(ScoreCorrections, RefusesWhatItCannotRead) {
  EXPECT_EQ(score("/no/gold.json", kLesson + "heard.txt").status, Status::kUnreadable);
  EXPECT_EQ(score(kLesson + "gold.json", "/no/lesson").status, Status::kUnreadable);
  const Outcome o = score(kLesson + "heard.txt", kLesson + "heard.txt");
  EXPECT_EQ(o.status, Status::kUnreadable);
  EXPECT_EQ(o.err.rfind("plyscribe: " + kLesson + "heard.txt:1: expected a gold tree", 0), 0u)
      << o.err;
}

}  // namespace
}  // namespace plyscribe::app
