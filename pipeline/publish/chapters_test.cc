#include "publish/chapters.h"

#include <gtest/gtest.h>

#include <string>

#include "publish/games.h"
#include "publish/pgn_reader.h"
#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

lesson::Lesson two_chapters() {
  tests::Sketch s("e4 e5");
  s.transcript.title = "Open games";
  s.transcript.duration = 4000;
  const auto nf3 = s.play(0, "Nf3", 20);
  s.play(nf3, "Nc6", 30);
  const auto nc3 = s.play(0, "Nc3", 50);
  s.play(nc3, "Nf6", 3700);
  lesson::Lesson lesson = s.lesson();
  lesson.chapters = {{0, "Knight & <king's> side", nf3}, {3661.5, std::string(150, 'x'), nc3}};
  return lesson;
}

// Timestamps and cue text: W3C, WebVTT, section 4.1.
TEST(ChapterTrack, HasACueForEachChapter) {
  EXPECT_EQ(write_chapter_track(two_chapters()),
            "WEBVTT\n\n1\n00:00:00.000 --> 01:01:01.500\nKnight &amp; &lt;king's&gt; side\n\n2\n"
            "01:01:01.500 --> 01:06:40.000\n" +
                std::string(100, 'x') + "\n");
}

TEST(ChapterList, HasALineForEachChapter) {
  EXPECT_EQ(write_chapter_list(two_chapters()),
            "0:00 Knight & <king's> side\n1:01:01 " + std::string(100, 'x') + "\n");
}

TEST(ChapterList, ALessonWithoutChaptersIsOne) {
  lesson::Lesson lesson = two_chapters();
  lesson.chapters.clear();
  EXPECT_EQ(write_chapter_list(lesson), "0:00 Open games\n");
}

TEST(Games, AreOneForEachChapterAndHoldEachMoveOnce) {
  const std::string pgn = write_games(two_chapters());
  const auto games = read_pgn(pgn, "games.pgn");
  ASSERT_TRUE(games) << games.error().message;
  ASSERT_EQ(games->size(), 2u);
  EXPECT_EQ((*games)[0].tag("Event"), "Open games");
  EXPECT_EQ((*games)[0].tag("Section"), "Knight & <king's> side");
  EXPECT_EQ((*games)[1].tag("Round"), "2");
  EXPECT_EQ((*games)[0].nodes.size(), 5u);  // the start, e4 e5 Nf3 Nc6
  EXPECT_EQ((*games)[1].nodes.size(), 5u);
}

}  // namespace
}  // namespace plyscribe::publish
