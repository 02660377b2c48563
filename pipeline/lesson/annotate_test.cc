#include "lesson/annotate.h"

#include <gtest/gtest.h>

#include <cctype>
#include <sstream>
#include <string>

#include "tests/publish/sketch.h"

namespace plyscribe::lesson {
namespace {

using board::Color;
using resolve::Act;

// A lecture written down: words and marks as talk, moves by calls between them.
class Lecture {
 public:
  explicit Lecture(const std::string& start, Color side = Color::kWhite) : sketch_(start) {
    sketch_.decoding.side = side;
  }

  void say(const std::string& text) {
    std::istringstream in(text);
    for (std::string word; in >> word;) {
      const std::size_t end = word.find_last_not_of(".,;:!?");
      if (end == std::string::npos) {  // a mark behind a move
        mark(word);
        continue;
      }
      transcript::Word w;
      w.text = word.substr(0, end + 1);
      w.start = t_;
      w.end = t_ += 0.4;
      w.sentence = sentence_;
      sketch_.transcript.words.push_back(w);
      mark(word.substr(end + 1));
    }
  }
  std::int32_t play(std::int32_t parent, const std::string& san) {
    const std::int32_t id = sketch_.play(parent, san, t_);
    settle();
    return id;
  }
  void again(std::int32_t id, const std::string& words) {
    sketch_.say(id, t_, words, {.act = Act::kRevisit});
    settle();
  }
  void idea(std::int32_t at, const std::string& san) {
    sketch_.say(at, t_, san, {.act = Act::kIdea, .text = san});
    settle();
  }
  Lesson lesson() const { return sketch_.lesson(); }

 private:
  void mark(const std::string& marks) {
    sketch_.transcript.words.back().trail = marks;
    if (marks.find_first_of(".!?") != std::string::npos) ++sentence_;
  }
  void settle() {
    sketch_.transcript.words.back().sentence = sentence_;
    t_ = sketch_.transcript.words.back().end;
  }
  tests::Sketch sketch_;
  double t_ = 1;
  std::uint32_t sentence_ = 0;
};

struct JudgementRow {
  const char *before, *after;  // what is said before and behind 1. e4 e5, and the number it gives
  int nag;                     // 0: none
};

// Numbers: PGN standard of 1994, section 10, its wording beside each.
TEST(Annotate, JudgementsGetTheStandardsNumbers) {
  const JudgementRow rows[] = {
      {"He plays", "and that's a good move .", 1},        // good move
      {"Then", ", and it's a mistake .", 2},              // poor move
      {"Then", ", which is brilliant .", 3},              // very good move
      {"The natural move", "is a blunder .", 4},          // very poor move
      {"There is", ", an interesting idea .", 5},         // speculative move
      {"Then", "is a bit hasty .", 6},                    // questionable move
      {"It's forced,", ". Let's go on.", 7},              // forced move
      {"The only move is", ". Let's go on.", 8},          // singular move
      {"After", ", it's a dead draw .", 10},              // drawish position
      {"After", "it's equal .", 11},                      // equal chances, quiet position
      {"After", "it is dynamically balanced .", 12},      // equal chances, active position
      {"After", ", unclear .", 13},                       // unclear position
      {"After", ", and White is slightly better .", 14},  // White, slight advantage
      {"After", ", with a slight edge for Black .", 15},  // Black, slight advantage
      {"After", ", with a clear advantage .", 16},        // White, moderate advantage
      {"After", ", Black is clearly better .", 17},       // Black, moderate advantage
      {"After", ", and White is winning .", 18},          // White, decisive advantage
      {"After", ", he's winning .", 19},                  // Black, decisive advantage
      {"After", ", and Black is lost .", 18},             // the same, said of the other side
      {"After", ", White can resign .", 21},              // Black, crushing advantage
      {"After", ". It's zugzwang .", 22},                 // White in zugzwang
      {"After", ", and Black is in zugzwang .", 23},      // Black in zugzwang
      {"After", ", and White has the initiative .", 36},  // White has the initiative
      {"After", ", Black has a strong attack .", 41},     // Black has the attack
      {"After", ", White doesn't have enough compensation .", 42},   // insufficient compensation
      {"After", ", and we have full compensation .", 44},            // sufficient compensation
      {"After", ", Black has more than enough compensation .", 47},  // more than adequate
      {"After", ", Black has good counterplay .", 133},              // moderate or some counterplay
      {"After", "it's not a mistake .", 0},
      {"After", ", is it equal ?", 0},
      {"After", ", when he gets there Black is lost .", 0},
      {"After", "Black has no counterplay .", 0},
      {"We drew in", ", and I offered a draw in the bus .", 0},
  };
  for (const JudgementRow& row : rows) {
    Lecture lecture("");
    const auto e4 = lecture.play(0, "e4");
    lecture.say(row.before);
    const auto e5 = lecture.play(e4, "e5");
    lecture.say(row.after);
    const Lesson lesson = lecture.lesson();
    const auto nags = nags_of(lesson.nodes[static_cast<std::size_t>(e5)]);
    const std::vector<int> expected = row.nag == 0 ? std::vector<int>{} : std::vector{row.nag};
    EXPECT_EQ(nags, expected) << row.before << " <m> " << row.after;
    EXPECT_TRUE(lesson.nodes[static_cast<std::size_t>(e4)].judgements.empty()) << row.after;
  }
}

TEST(Annotate, WordsAndTimeOfAJudgementAreKept) {
  Lecture lecture("");
  const auto e4 = lecture.play(0, "e4");
  lecture.say(". Nothing new. That's a blunder, by the way.");
  const Lesson lesson = lecture.lesson();
  const auto& judgements = lesson.nodes[static_cast<std::size_t>(e4)].judgements;
  ASSERT_EQ(judgements.size(), 1u);
  EXPECT_EQ(judgements[0].span.heard, "That's a blunder");
  EXPECT_DOUBLE_EQ(judgements[0].span.t, 2.8);  // the move takes a second, a word 0.4
}

TEST(Annotate, PhrasesSpeakOfTheMoveTheyHold) {
  Lecture lecture("", Color::kBlack);
  const auto e4 = lecture.play(0, "e4");
  const auto e5 = lecture.play(e4, "e5");
  lecture.say(". I prefer");
  const auto c5 = lecture.play(e4, "c5");
  lecture.say(", and then");
  lecture.play(c5, "Nf3");
  const Lesson lesson = lecture.lesson();
  EXPECT_EQ(lesson.nodes[static_cast<std::size_t>(c5)].advice, Advice::kRecommended);
  EXPECT_EQ(lesson.nodes[static_cast<std::size_t>(e5)].advice, Advice::kNone);
}

TEST(Annotate, AdviceBehindALineSpeaksOfTheChoiceThatLedThere) {
  Lecture lecture("", Color::kBlack);
  const auto e4 = lecture.play(0, "e4");
  const auto e5 = lecture.play(e4, "e5");
  lecture.play(e4, "c5");
  lecture.say(". First");
  lecture.again(e5, "e5");
  lecture.say(".");
  const auto nf3 = lecture.play(e5, "Nf3");
  const auto nc6 = lecture.play(nf3, "Nc6");
  lecture.play(nc6, "Bb5");
  lecture.say(
      ". One man in my club has played it for thirty years. I don't trust it. I show it for the "
      "sake of completeness.");
  const Lesson lesson = lecture.lesson();
  const auto& counsels = lesson.nodes[static_cast<std::size_t>(e5)].counsels;
  ASSERT_EQ(counsels.size(), 2u);
  EXPECT_EQ(counsels[0].advice, Advice::kAvoided);
  EXPECT_EQ(counsels[1].advice, Advice::kForCompleteness);
  EXPECT_EQ(lesson.nodes[static_cast<std::size_t>(e5)].advice, Advice::kAvoided);
}

TEST(Annotate, WhatIsSaidOfAnIdeaIsNotSaidOfTheMoveBeforeIt) {
  Lecture lecture("");
  const auto e4 = lecture.play(0, "e4");
  lecture.say(". Now");
  lecture.idea(e4, "e5");
  lecture.say("is premature.");
  EXPECT_TRUE(lecture.lesson().nodes[static_cast<std::size_t>(e4)].judgements.empty());
}

TEST(Annotate, AdviceAboutTheOtherSidesMovesIsNone) {
  Lecture lecture("", Color::kBlack);
  lecture.say("Here I recommend");
  const auto e4 = lecture.play(0, "e4");
  EXPECT_TRUE(lecture.lesson().nodes[static_cast<std::size_t>(e4)].counsels.empty());
}

TEST(Annotate, RemarksAndReferencesAreWholeSentences) {
  Lecture lecture("");
  const auto e4 = lecture.play(0, "e4");
  lecture.say(
      ". The rule is, when he hits your knight, you hit his bishop! We did that last week.");
  const Lesson lesson = lecture.lesson();
  const auto& remarks = lesson.nodes[static_cast<std::size_t>(e4)].remarks;
  ASSERT_EQ(remarks.size(), 1u);
  EXPECT_EQ(remarks[0].heard, "The rule is, when he hits your knight, you hit his bishop!");
  ASSERT_EQ(lesson.references.size(), 1u);
  EXPECT_EQ(lesson.references[0].heard, "We did that last week.");
}

}  // namespace
}  // namespace plyscribe::lesson
