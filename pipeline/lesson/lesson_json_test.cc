#include "lesson/lesson_json.h"

#include <gtest/gtest.h>

#include <string>

#include "tests/publish/sketch.h"

namespace plyscribe::lesson {
namespace {

using resolve::Act;
using tests::Sketch;

// One of everything that a lesson can hold.
Lesson full_lesson() {
  Sketch s("e4 e5");
  s.decoding.side = board::Color::kBlack;
  s.decoding.start.name = "King's Pawn";
  s.decoding.start.confidence = 0.75;
  s.transcript.title = "A \"quoted\" title";
  const auto nf3 = s.node(0, "Nf3");
  s.say(nf3, 1.25, "night f three",
        {.confidence = 0.8125,
         .as_heard = false,
         .text = "",
         .alternatives = {{"Nh3", 0.1}, {"f3", 0.05}}});
  const auto nc6 = s.node(nf3, "Nc6");
  s.play(nc6, "Bb5", 9);
  s.say(nf3, 11, "knight f3", {.act = Act::kRevisit, .confidence = 0.5});
  s.say(nc6, 14, "bishop c4", {.act = Act::kIdea, .text = "Bc4"});
  s.say(nc6, 15, "b5", {.act = Act::kIdea, .text = "the b5 square"});
  s.say(-1, 20, "rook e one", {.act = Act::kLoose, .text = "no rook can go there"});
  Lesson lesson = s.lesson();
  lesson.media = "https://media.invalid/lesson";
  const Span words{30, 32.5, 3, 5, "some words"};
  lesson.nodes[0].judgements = {{10, words}};
  lesson.nodes[1].judgements = {{1, words}, {14, words}, {1, words}};
  lesson.nodes[1].counsels = {{Advice::kPlayable, words}, {Advice::kRecommended, words}};
  lesson.nodes[1].advice = Advice::kRecommended;
  lesson.nodes[1].mentions[1].settled = true;
  lesson.ideas[0].settled = true;
  lesson.nodes[2].advice = Advice::kAvoided;
  lesson.nodes[3].advice = Advice::kForCompleteness;
  lesson.nodes[3].remarks = {{30, 32.5, 3, 5, "It's the old main line."}};
  lesson.credits = {{words, "Anna", "Bert", "club match", "1987", 2}};
  lesson.references = {words};
  lesson.corrections = {words, words};
  lesson.chapters = {{0, "Greeting", 0}, {40, "Bishop out", 3}};
  return lesson;
}

TEST(LessonJson, WhatWasWrittenReadsBackToTheSameBytes) {
  const std::string text = write_json(full_lesson());
  const auto read = read_json(text, "lesson.json");
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(write_json(*read), text);
  EXPECT_EQ(read->nodes[0].judgements.at(0).nag, 10);
  EXPECT_EQ(nags_of(read->nodes[1]), (std::vector<int>{1, 14}));
  EXPECT_EQ(read->nodes[1].counsels.at(0).advice, Advice::kPlayable);
  EXPECT_EQ(read->nodes[1].advice, Advice::kRecommended);
  EXPECT_EQ(read->nodes[2].advice, Advice::kAvoided);
  EXPECT_EQ(read->nodes[3].advice, Advice::kForCompleteness);
  EXPECT_EQ(read->nodes[3].remarks.at(0).heard, "It's the old main line.");
  EXPECT_EQ(read->credits.at(0).opponent, "Bert");
  EXPECT_EQ(read->references.at(0).first_word, 3u);
  EXPECT_EQ(read->corrections.size(), 2u);
  EXPECT_EQ(read->chapters.at(1).node, 3);
  EXPECT_EQ(read->start.moves.size(), 2u);
  EXPECT_TRUE(read->ideas[0].is_move);
  EXPECT_FALSE(read->ideas[1].is_move);
  EXPECT_FALSE(read->nodes[1].mentions[0].settled);
  EXPECT_TRUE(read->nodes[1].mentions[1].settled);
  EXPECT_TRUE(read->ideas[0].settled);
  EXPECT_FALSE(read->ideas[1].settled);
}

TEST(LessonJson, KeysStandInTheOrderOfTheSchema) {
  const std::string text = write_json(full_lesson());
  std::size_t at = 0;
  for (const char* key :
       {"schema",       "title",      "media",      "duration",   "side",        "start",
        "fen",          "moves",      "how",        "name",       "confidence",  "nodes",
        "id",           "parent",     "san",        "uci",        "fen",         "t",
        "status",       "confidence", "unsaid",     "mentions",   "t",           "t_end",
        "first_word",   "last_word",  "heard",      "said",       "revisit",     "confidence",
        "alternatives", "nags",       "judgements", "advice",     "counsels",    "remarks",
        "ideas",        "loose",      "why",        "credits",    "player",      "opponent",
        "event",        "year",       "node",       "references", "corrections", "chapters"}) {
    const std::size_t found = text.find("\"" + std::string(key) + "\":", at);
    ASSERT_NE(found, std::string::npos) << key;
    at = found + 1;
  }
}

TEST(LessonJson, FilesFromBeforeSayingsHadWordsAreRead) {
  Sketch s;
  s.play(0, "e4", 5);
  std::string text = write_json(s.lesson());
  const auto replace = [&](const std::string& what, const std::string& with) {
    const std::size_t at = text.rfind(what);
    ASSERT_NE(at, std::string::npos) << what;
    text.replace(at, what.size(), with);
  };
  replace("\"nags\": []", "\"nags\": [1, 14]");
  replace("\"judgements\": [],", "");
  replace("\"counsels\": [],", "");
  replace("\"advice\": null", "\"advice\": \"discouraged\"");
  replace("\"remarks\": []", "\"remarks\": [\"once popular\"]");
  replace("\"references\": [],", "");
  replace("\"corrections\": [],", "");
  replace("\"credits\": []", "\"credits\": [{\"t\": 7, \"t_end\": 9, \"text\": \"a club game\"}]");
  replace("\"chapters\": []", "\"chapters\": [{\"t\": 0, \"title\": \"All\"}]");
  const auto read = read_json(text, "old.json");
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(nags_of(read->nodes[1]), (std::vector<int>{1, 14}));
  EXPECT_EQ(read->nodes[1].advice, Advice::kAvoided);
  EXPECT_EQ(read->nodes[1].remarks.at(0).heard, "once popular");
  EXPECT_EQ(read->nodes[1].remarks.at(0).t, 5);
  EXPECT_EQ(read->credits.at(0).span.heard, "a club game");
  EXPECT_EQ(read->chapters.at(0).title, "All");
}

TEST(LessonJson, TimesHaveTwoDecimalsAndConfidencesFour) {
  Sketch s;
  const auto e4 = s.node(0, "e4");
  s.say(e4, 39.79999999999, "e4", {.confidence = 0.123456});
  const std::string text = write_json(s.lesson());
  EXPECT_NE(text.find("\"t\": 39.8,"), std::string::npos) << text;
  EXPECT_NE(text.find("\"confidence\": 0.1235,"), std::string::npos) << text;
}

TEST(LessonJson, BytesThatAreNoTextDoNotSpoilTheFile) {
  Sketch s;
  const auto e4 = s.node(0, "e4");
  s.say(e4, 1, "e\xFF");
  EXPECT_TRUE(read_json(write_json(s.lesson()), "x"));
}

struct Damage {
  const char *what, *with, *message;  // message: after "lesson.json:"
};

TEST(LessonJson, DamageIsNamedByPlace) {
  const std::string good = write_json(full_lesson());
  const Damage rows[] = {
      {"\"schema\": \"plyscribe.lesson/1\"", "\"schema\": \"other/1\"",
       "schema: expected \"plyscribe.lesson/1\""},
      {"\"title\"", "\"tittle\"", "1: expected the key \"title\""},
      {"\"side\": \"black\"", "\"side\": \"red\"", "side: expected \"white\" or \"black\""},
      {"\"uci\": \"g1f3\"", "\"uci\": \"g1g5\"", "nodes[0].uci: expected a legal move"},
      {"\"san\": \"Nf3\"", "\"san\": \"Nh3\"", "nodes[0].san: expected Nf3"},
      {"\"parent\": 1", "\"parent\": 2", "nodes[1].parent: expected an integer from 0 to 1"},
      {"\"parent\": 1", "\"parent\": 1.5", "nodes[1].parent: expected an integer from 0 to 1"},
      {"\"id\": 3", "\"id\": 4", "nodes[2].id: expected an integer from 3 to 3"},
      {"\"status\": \"clear\"", "\"status\": \"sure\"",
       "nodes[2].status: expected clear, mended, unsure or loose"},
      {"\"confidence\": 0.8125", "\"confidence\": 1.5",
       "nodes[0].confidence: expected a number from 0 to 1"},
      {"\"unsaid\": true", "\"unsaid\": 1", "nodes[1].unsaid: expected true or false"},
      {"\"advice\": \"recommended\"", "\"advice\": \"yes\"",
       "nodes[0].advice: expected null, \"recommended\", \"playable\", "},
      {"\"heard\": \"rook e one\"", "\"heard\": null", "loose[0].heard: expected a text"},
      {"  \"e5\"\n", "  \"e6\"\n", "start.fen: expected the position after the start moves"},
  };
  for (const Damage& row : rows) {
    std::string bad = good;
    const std::size_t at = bad.find(row.what);
    ASSERT_NE(at, std::string::npos) << row.what;
    bad.replace(at, std::string(row.what).size(), row.with);
    const auto read = read_json(bad, "lesson.json");
    ASSERT_FALSE(read) << row.with;
    EXPECT_EQ(read.error().message.rfind("lesson.json:" + std::string(row.message), 0), 0u)
        << row.with << " gave " << read.error().message;
  }
}

TEST(LessonJson, WhatIsNoJsonIsNamedByLine) {
  const auto cut = read_json("{\n \"schema\": \"plyscribe.lesson/1\",\n", "x.json");
  ASSERT_FALSE(cut);
  EXPECT_EQ(cut.error().message, "x.json:3: expected JSON");
  EXPECT_EQ(read_json("", "x.json").error().message, "x.json:1: expected JSON");
  EXPECT_EQ(read_json("[]", "x.json").error().message, "x.json:1: expected an object");
}

}  // namespace
}  // namespace plyscribe::lesson
