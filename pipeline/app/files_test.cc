#include "app/files.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>

namespace plyscribe::app {
namespace {

namespace fs = std::filesystem;

class WriteFiles : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(testing::TempDir()) /
              ("plyscribe_files_" +
               std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::size_t entries(const fs::path& folder) const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
  }

  fs::path folder_;
};

TEST_F(WriteFiles, MakesTheFolderAndReplacesWhatWasThere) {
  const fs::path out = folder_ / "new" / "folder";
  EXPECT_FALSE(write_files(out, {{"a", "one"}, {"b", "two"}}));
  EXPECT_FALSE(write_files(out, {{"a", "three"}}));
  EXPECT_EQ(*read_file((out / "a").string()), "three");
  EXPECT_EQ(*read_file((out / "b").string()), "two");
  EXPECT_EQ(entries(out), 2u);
}

TEST_F(WriteFiles, MakesFoldersWithinTheFolder) {
  EXPECT_FALSE(write_files(folder_, {{"one/deep/a", "1"}, {"one/b", "2"}}));
  EXPECT_EQ(*read_file((folder_ / "one/deep/a").string()), "1");
  EXPECT_EQ(*read_file((folder_ / "one/b").string()), "2");
  EXPECT_EQ(entries(folder_ / "one"), 2u);
}

TEST_F(WriteFiles, FailsWhereTheFolderIsAFile) {
  std::ofstream(folder_ / "file") << "kept";
  const auto error = write_files(folder_ / "file", {{"a", "one"}});
  ASSERT_TRUE(error);
  EXPECT_NE(error->message.find("file: expected a folder that can be written"), std::string::npos)
      << error->message;
  EXPECT_EQ(*read_file((folder_ / "file").string()), "kept");
}

TEST_F(WriteFiles, LeavesNothingBehindWhenOneOfThemFails) {
  fs::create_directories(folder_ / "b");  // where a file should go
  std::ofstream(folder_ / "file") << "kept";
  ASSERT_TRUE(write_files(folder_, {{"c", "two"}, {"file/a", "one"}}));
  EXPECT_EQ(entries(folder_), 2u);
  fs::remove(folder_ / "file");
  ASSERT_TRUE(write_files(folder_, {{"b", "one"}}));
  EXPECT_EQ(entries(folder_), 1u);
}

TEST_F(WriteFiles, ReplacesLinksToFilesAndRefusesLinksToFolders) {
  const fs::path out = folder_ / "out", elsewhere = folder_ / "elsewhere";
  fs::create_directories(out);
  fs::create_directories(elsewhere);
  std::ofstream(elsewhere / "kept") << "kept";
  fs::create_symlink(elsewhere / "kept", out / "a");
  EXPECT_FALSE(write_files(out, {{"a", "one"}}));
  EXPECT_EQ(*read_file((out / "a").string()), "one");
  EXPECT_EQ(*read_file((elsewhere / "kept").string()), "kept");
  fs::create_directory_symlink(elsewhere, out / "b");
  const auto error = write_files(out, {{"a", "two"}, {"b/c", "three"}});
  ASSERT_TRUE(error);
  EXPECT_EQ(error->message, (out / "b").string() + ": expected a folder, found a link to one");
  EXPECT_EQ(entries(elsewhere), 1u);
  EXPECT_EQ(*read_file((out / "a").string()), "one");
}

TEST_F(WriteFiles, TakesBackTheFoldersItMadeWhenItFails) {
  fs::create_directories(folder_ / "new" / "b");
  ASSERT_TRUE(write_files(folder_ / "new", {{"c/d/e", "one"}, {"b", "two"}}));
  EXPECT_EQ(entries(folder_ / "new"), 1u);
}

TEST_F(WriteFiles, ReadFileNamesWhatCannotBeRead) {
  EXPECT_EQ(read_file("/no/such/file").error().message,
            "/no/such/file: expected a file that can be read: No such file or directory");
  EXPECT_FALSE(read_file(folder_.string()));
  EXPECT_EQ(read_file("/dev/zero").error().message,
            "/dev/zero: expected a file of at most 32 MB");
}

}  // namespace
}  // namespace plyscribe::app
