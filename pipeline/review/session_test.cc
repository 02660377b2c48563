#include "review/session.h"

#include <gtest/gtest.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <set>

#include "board/notation.h"
#include "transcript/transcript.h"

namespace plyscribe::review {
namespace {

using Json = nlohmann::json;

// The bishop's letter is lost in the third second: b3 or d3, which only a person knows.
constexpr const char* kTalk =
    "[0:00] We begin with e4, e5, Nf3, Nc6, Bc4, Nf6, d3.\n"
    "[0:10] Then Bc5, c3, d6, castles, castles.\n"
    "[0:20] Instead of d3 there is Ng5, d5, exd5, Na5, Bb5+, c6, dxc6, bxc6.\n"
    "[0:30] And now Bd3, Nd5, Nf3, Bd6, castles.\n";

struct Bench {
  transcript::Transcript transcript;
  std::unique_ptr<Session> session;
  std::vector<std::string> saved;
  bool disk_full = false;

  explicit Bench(std::string_view talk, lesson::Pins pins = {}) {
    transcript = *transcript::read_transcript(talk, "talk");
    auto opened = Session::open(transcript, {}, std::move(pins), [this](std::string_view text) {
      if (disk_full) return std::optional<Error>(Error{"pins: expected room on the disk"});
      saved.emplace_back(text);
      return std::optional<Error>();
    });
    if (!opened)
      ADD_FAILURE() << opened.error().message;
    else
      session = *std::move(opened);
  }

  Json state() const { return Json::parse(session->page({}))["state"]; }

  // Word index of the nth time that a word is said.
  std::uint32_t word(std::string_view text, int nth = 0) const {
    for (std::uint32_t i = 0; i < transcript.words.size(); ++i) {
      if (transcript.words[i].text == text && nth-- == 0) return i;
    }
    ADD_FAILURE() << text;
    return 0;
  }
  lesson::Pins pins(resolve::Pin pin) const {
    lesson::Pins out;
    out.words.push_back(lesson::pinned_words(pin, transcript));
    return out;
  }
};

std::vector<std::string> sans(const Json& state) {
  std::vector<std::string> out;
  for (const Json& n : state["nodes"]) out.push_back(n[2]);
  return out;
}
bool has(const Json& state, const std::string& san) {
  const auto all = sans(state);
  return std::find(all.begin(), all.end(), san) != all.end();
}

TEST(Session, CorrectionsAreSavedUndoneAndRedone) {
  Bench b(kTalk);
  const Json before = b.state();
  ASSERT_TRUE(has(before, "Bd3")) << before["nodes"];
  const std::uint32_t word = b.word("Bd3");
  const lesson::Pins pins = b.pins({word, word + 1, resolve::Pin::Kind::kMove, "Be2", {}});
  const Answer done = b.session->set_pins(0, lesson::write_pins(pins));
  ASSERT_EQ(done.status, 200) << done.body;
  const Json after = Json::parse(done.body);
  EXPECT_TRUE(has(after, "Be2"));
  EXPECT_EQ(after["revision"], 1);
  EXPECT_EQ(after["undo"], 1);
  EXPECT_EQ(b.saved.back(), lesson::write_pins(pins));
  // One correction: the moves behind it hang on the new one, and the page can say so.
  EXPECT_GT(after["changes"]["nodes"].size(), 1u);
  EXPECT_GT(after["changes"]["gone"], 0);
  for (const Json& m : after["mentions"]) {
    if (m["first"] == word) {
      EXPECT_EQ(m["said"], "Be2");
      EXPECT_TRUE(m["settled"]);
    }
  }

  const Json undone = Json::parse(b.session->undo(1).body);
  EXPECT_EQ(undone["nodes"], before["nodes"]);
  EXPECT_EQ(undone["mentions"], before["mentions"]);
  EXPECT_EQ(undone["redo"], 1);
  EXPECT_EQ(b.saved.back(), lesson::write_pins({}));
  const Json redone = Json::parse(b.session->redo(2).body);
  EXPECT_EQ(redone["nodes"], after["nodes"]);
  EXPECT_EQ(b.saved.back(), lesson::write_pins(pins));
  EXPECT_EQ(b.session->redo(3).status, 422);

  // A session that begins with the saved file shows the same.
  Bench again(kTalk, *lesson::read_pins(b.saved.back(), "pins"));
  EXPECT_EQ(again.state()["nodes"], after["nodes"]);
}

TEST(Session, WhatCannotBeDoneChangesNothing) {
  Bench b(kTalk);
  const Json before = b.state();
  const std::uint32_t word = b.word("Bd3");
  const std::string good =
      lesson::write_pins(b.pins({word, word + 1, resolve::Pin::Kind::kNoMove, "", {}}));
  struct Row {
    std::size_t revision;
    std::string pins;
    int status;
  };
  for (const Row& row : std::vector<Row>{
           {7, good, 409},
           {0, "", 422},
           {0, "[]", 422},
           {0, "{\"schema\":\"plyscribe.pins/1\",\"move\":1}", 422},
           {0, "{\"schema\":\"plyscribe.pins/1\",\"start\":\"xyzzy plugh\"}", 422},
           {0, R"({"schema":"plyscribe.pins/1","pins":[{"first_word":0,"last_word":1,"t":0,
                  "heard":"other words","is":"no move"}]})",
            422},
           {0, R"({"schema":"plyscribe.pins/1","pins":[{"first_word":99999,"last_word":100000,"t":0,
                  "heard":"x","is":"no move"}]})",
            422},
       }) {
    const Answer answer = b.session->set_pins(row.revision, row.pins);
    EXPECT_EQ(answer.status, row.status) << row.pins << answer.body;
    const Json body = Json::parse(answer.body);
    EXPECT_FALSE(body["error"].get<std::string>().empty());
    EXPECT_EQ(body["state"]["nodes"], before["nodes"]);
    EXPECT_EQ(body["state"]["revision"], 0);
  }
  EXPECT_EQ(b.session->undo(0).status, 422);
  EXPECT_TRUE(b.saved.empty());

  b.disk_full = true;
  const Answer full = b.session->set_pins(0, good);
  EXPECT_EQ(full.status, 500);
  EXPECT_EQ(Json::parse(full.body)["state"]["nodes"], before["nodes"]);
  b.disk_full = false;
  EXPECT_EQ(b.session->set_pins(0, good).status, 200);
}

TEST(Session, AnIllegalCorrectionIsReportedAndLeadsTheQueue) {
  Bench b(kTalk);
  const std::uint32_t word = b.word("Bd3");
  const Answer answer = b.session->set_pins(
      0,
      lesson::write_pins(b.pins({word, word + 1, resolve::Pin::Kind::kLine, "", {"e4", "Ke7"}})));
  ASSERT_EQ(answer.status, 200) << answer.body;
  const Json state = Json::parse(answer.body);
  ASSERT_EQ(state["unheld"].size(), 1u);
  EXPECT_EQ(state["queue"][0]["kind"], "pin");
  EXPECT_FALSE(has(state, "Ke7"));
}

TEST(Session, QueueGoesByWhatRestsOnAnItemTimesHowUnsureItIs) {
  Bench b(kTalk);
  const Json state = b.state();
  double before = 1e9;
  for (const Json& item : state["queue"]) {
    EXPECT_LE(item["effect"].get<double>(), before);
    before = item["effect"];
    EXPECT_FALSE(item["reason"].get<std::string>().empty());
    if (item["kind"] != "mention") continue;
    const Json& m = state["mentions"][item["mention"].get<std::size_t>()];
    if (m["act"] == "loose") continue;
    EXPECT_LT(m["confidence"].get<double>(), lesson::kSureFrom);
    const double below = m["act"] == "idea" ? 1 : item["below"].get<double>();
    EXPECT_NEAR(item["effect"].get<double>(), below * (1 - m["confidence"].get<double>()), 0.011);
  }
}

// 30 minutes of talk with its moves, said again and again: a correction answers in time.
TEST(Session, CorrectsALongLessonWithoutAWait) {
  std::string talk;
  for (int minute = 0; minute < 30; ++minute) {
    talk += "[" + std::to_string(minute) + ":00] From the start again, e4, e5, Nf3, Nc6, Bc4, and ";
    talk += minute % 2 == 0 ? "Bc5, c3, Nf6, d3, d6, castles, castles. "
                            : "Nf6, d3, Be7, castles, castles. ";
    for (int i = 0; i < 12; ++i)
      talk += "We look at the board for a while and nobody minds at all. ";
    talk += "\n";
  }
  Bench b(talk);
  const std::uint32_t word = b.word("Be7", 12);
  const auto begin = std::chrono::steady_clock::now();
  const Answer answer = b.session->set_pins(
      0, lesson::write_pins(b.pins({word, word + 1, resolve::Pin::Kind::kNoMove, "", {}})));
  const double ms =
      std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
  ASSERT_EQ(answer.status, 200) << answer.body;
  RecordProperty("milliseconds", static_cast<int>(ms));
  std::printf("[ measured ] correction of a 30-minute lesson: %.0f ms, decoding %.0f ms\n", ms,
              answer.milliseconds);
  EXPECT_LT(ms, 3000);  // ten times what is wanted: the machine may be busy, or under sanitizers
}

}  // namespace
}  // namespace plyscribe::review
