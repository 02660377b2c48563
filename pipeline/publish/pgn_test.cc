#include "publish/pgn.h"

#include <gtest/gtest.h>

#include <string>

#include "board/notation.h"
#include "publish/pgn_reader.h"
#include "publish/text.h"
#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using tests::Sketch;

// The movetext in one line.
std::string movetext(const lesson::Lesson& lesson, const PgnOptions& options = {}) {
  const std::string pgn = write_pgn(lesson, options);
  std::string text = pgn.substr(pgn.find("\n\n") + 2);
  for (char& c : text) c = c == '\n' ? ' ' : c;
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

TEST(WritePgn, GivesTheSevenTagsAndNoSetUpFromTheInitialPosition) {
  Sketch s;
  s.transcript.title = "A \"quoted\" title, with \\";
  s.play(0, "e4", 37);
  EXPECT_EQ(write_pgn(s.lesson()),
            "[Event \"A \\\"quoted\\\" title, with \\\\\"]\n"
            "[Site \"?\"]\n[Date \"????.??.??\"]\n[Round \"?\"]\n[White \"?\"]\n[Black \"?\"]\n"
            "[Result \"*\"]\n\n1. e4 {0:37} *\n");
}

TEST(WritePgn, GivesOtherTagsInTheOrderOfTheirNames) {
  Sketch s("8/5ppp/2k5/5PPP/1p6/1P3K2/8/8 w - - 0 1");
  s.decoding.start.name = "Pawn ending";
  auto lesson = s.lesson();
  lesson.media = "https://media.invalid/9";
  const std::string pgn = write_pgn(lesson);
  EXPECT_NE(pgn.find("[Result \"*\"]\n[FEN \"8/5ppp/2k5/5PPP/1p6/1P3K2/8/8 w - - 0 1\"]\n"
                     "[Media \"https://media.invalid/9\"]\n[Opening \"Pawn ending\"]\n"
                     "[SetUp \"1\"]\n\n*\n"),
            std::string::npos)
      << pgn;
}

TEST(WritePgn, PlaysTheMovesThatReachTheStart) {
  Sketch s("e4 e5 Nf3");
  s.play(0, "Nc6", 61);
  EXPECT_EQ(movetext(s.lesson()),
            "1. e4 e5 2. Nf3 {0:00, the lesson begins here} 2... Nc6 {1:01} *");
}

TEST(WritePgn, SaysWhenTheStartIsUnsure) {
  Sketch known("e4");
  known.decoding.start.confidence = 0.5;
  EXPECT_EQ(movetext(known.lesson()),
            "1. e4 {0:00, the lesson begins here; unsure of this position} *");
  Sketch initial;
  initial.decoding.start.confidence = 0.5;
  EXPECT_EQ(movetext(initial.lesson()),
            "{0:00, the lesson begins here; unsure of this position} *");
}

TEST(WritePgn, NumbersMovesAfterCommentsAndVariations) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 1);
  const auto e5 = s.play(e4, "e5", 2);
  s.play(e5, "Nf3", 3);
  const auto c5 = s.play(e4, "c5", 80);
  s.play(c5, "Nf3", 99);
  EXPECT_EQ(movetext(s.lesson()),
            "1. e4 {0:01} 1... e5 {0:02} (1... c5 {1:20} 2. Nf3 {1:39}) 2. Nf3 {0:03} *");
}

TEST(WritePgn, NumbersGoOnFromASetUpPosition) {
  Sketch s("r1bqkb1r/pppp1ppp/2n2n2/4p3/2B1P3/5N2/PPPP1PPP/RNBQK2R b KQkq - 4 31");
  s.play(s.play(0, "Nxe4", 1), "O-O", 2);
  EXPECT_EQ(movetext(s.lesson()), "31... Nxe4 {0:01} 32. O-O {0:02} *");
}

TEST(WritePgn, TellsInWordsWhatIsUnsureAndWhatWasNotSaid) {
  Sketch s;
  const auto d4 = s.node(0, "d4");
  const auto d5 = s.node(d4, "d5");
  s.say(d5, 37, "defy", {.confidence = 0.95, .as_heard = false});
  const auto bg5 = s.node(d5, "Bg5");
  const auto nf6 = s.node(bg5, "Nf6");
  s.say(nf6, 41, "night {f} six", {.confidence = 0.4});
  EXPECT_EQ(movetext(s.lesson()),
            "1. d4 {0:37, not said} 1... d5 {0:37} 2. Bg5 {0:41, not said, unsure} 2... Nf6 {0:41, "
            "unsure: heard 'night (f) six'} *");
}

TEST(WritePgn, PutsGlyphsBeforeTheCommentAndRemarksIntoIt) {
  Sketch s;
  s.play(0, "e4", 1);
  auto lesson = s.lesson();
  lesson.nodes[1].judgements = {{1, {}}, {14, {}}};
  lesson.nodes[1].remarks = {{0, 0, 0, 0, "best by test"}, {0, 0, 0, 0, "see }"}};
  EXPECT_EQ(movetext(lesson), "1. e4 $1 $14 {0:01; best by test; see )} *");
}

TEST(WritePgn, PutsLinksAdviceAndPlansIntoTheComment) {
  Sketch s;
  const auto e4 = s.play(0, "e4", 61.5);
  s.say(e4, 70, "d5", {.act = resolve::Act::kIdea, .text = "d5"});
  s.say(e4, 71, "knight f6", {.act = resolve::Act::kIdea, .text = "Nf6"});
  auto lesson = s.lesson();
  lesson.nodes[1].advice = lesson::Advice::kAvoided;
  const PgnOptions options{.link = *Link::parse("https://v.invalid/a%20b{seconds}?{x}")};
  EXPECT_EQ(movetext(lesson, options),
            "1. e4 {1:01 https://v.invalid/a%20b61?%7Bx%7D, to be avoided; ideas d5, Nf6} *");
  // an address that would be cut at the end of a line is left out
  const PgnOptions far{.link = Link::of_media("https://v.invalid/" + std::string(80, 'a'))};
  EXPECT_EQ(movetext(lesson, far), "1. e4 {1:01, to be avoided; ideas d5, Nf6} *");
}

TEST(WritePgn, CutsLongRemarksBetweenWords) {
  Sketch s;
  s.play(0, "e4", 1);
  auto lesson = s.lesson();
  std::string remark;
  for (int i = 0; i < 60; ++i) remark += "word ";
  lesson.nodes[1].remarks = {{0, 0, 0, 0, remark}};
  const std::string text = movetext(lesson);
  EXPECT_LT(text.size(), 240u);
  EXPECT_NE(text.find("word ...} *"), std::string::npos) << text;
}

TEST(WritePgn, GivesTheResultThatTheMainLineShowsOnTheBoard) {
  struct Row {
    const char *start, *move, *result;
  };
  for (const Row& row :
       {Row{"", "e4", "*"}, Row{"f3 e5 g4", "Qh4", "0-1"}, Row{"e4 f6 d4 g5", "Qh5", "1-0"},
        Row{"7k/5K2/8/6Q1/8/8/8/8 w - - 0 1", "Qg6", "1/2-1/2"}}) {
    Sketch s(row.start);
    s.play(0, row.move, 1);
    const std::string pgn = write_pgn(s.lesson());
    const std::string result = row.result;
    EXPECT_NE(pgn.find("[Result \"" + result + "\"]"), std::string::npos) << pgn;
    EXPECT_EQ(pgn.substr(pgn.rfind(' ') + 1), result + "\n") << pgn;
  }
}

TEST(CommentText, HoldsNothingThatAReaderCouldTakeForMarkup) {
  struct Row {
    const char *text, *safe;
  };
  for (const Row& row :
       {Row{"plain words", "plain words"}, Row{"a {b} c", "a (b) c"},
        Row{"two\nlines\r\n\tand  blanks ", "two lines and blanks"},
        Row{"100% sure", "100 percent sure"}, Row{"%eval", "percent eval"},
        Row{"[%x 1]", "[ percent x 1]"}, Row{"%", "percent"}, Row{"; ( ) $1 * \"", "; ( ) $1 * \""},
        Row{"caf\xC3\xA9", "caf\xC3\xA9"}, Row{"", ""}}) {
    EXPECT_EQ(comment_text(row.text), row.safe) << row.text;
  }
}

// The movetext of the sample game in the PGN standard, section 2.3, with its own line breaks.
constexpr const char* kSampleMovetext =
    "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. Re1 b5 7. Bb3 d6 8. c3\n"
    "O-O 9. h3 Nb8 10. d4 Nbd7 11. c4 c6 12. cxb5 axb5 13. Nc3 Bb7 14. Bg5 b4 15.\n"
    "Nb1 h6 16. Bh4 c5 17. dxe5 Nxe4 18. Bxe7 Qxe7 19. exd6 Qf6 20. Nbd2 Nxd6 21.\n"
    "Nc4 Nxc4 22. Bxc4 Nb6 23. Ne5 Rae8 24. Bxf7+ Rxf7 25. Nxf7 Rxe1+ 26. Qxe1 Kxf7\n"
    "27. Qe3 Qg5 28. Qxg5 hxg5 29. b3 Ke6 30. a3 Kd6 31. axb4 cxb4 32. Ra5 Nd5 33.\n"
    "f3 Bc8 34. Kf2 Bf5 35. Ra7 g6 36. Ra6+ Kc5 37. Ke1 Nf4 38. g3 Nxh3 39. Kd2 Kb5\n"
    "40. Rd6 Kc5 41. Ra6 Nf2 42. g4 Bd3 43. Re6 ";

TEST(WritePgn, BreaksLinesAsTheStandardsSampleGameDoes) {
  const auto sample = read_pgn(std::string(kSampleMovetext) + "1/2-1/2", "sample");
  ASSERT_TRUE(sample) << sample.error().message;
  Sketch s;
  for (std::size_t i = 1; i < (*sample)[0].nodes.size(); ++i) {
    s.decoding.start.moves.push_back((*sample)[0].nodes[i].move);
  }
  s.decoding.nodes[0].position = (*sample)[0].nodes.back().position;
  const std::string pgn = write_pgn(s.lesson());
  EXPECT_EQ(pgn.find(kSampleMovetext), pgn.find("\n\n") + 2) << pgn;
}

TEST(WritePgn, KeepsMovetextLinesTo79Columns) {
  Sketch s;
  std::int32_t last = 0;
  const std::string long_word(200, 'x');
  for (const char* san : {"e4", "e5", "Nf3", "Nc6", "Bb5", "a6", "Ba4", "Nf6"}) {
    last = s.node(last, san);
    s.say(last, 1, "% 100% " + long_word + " {caf\xC3\xA9}", {.confidence = 0.1});
  }
  const std::string pgn = write_pgn(s.lesson());
  for (std::size_t begin = pgn.find("\n\n") + 2; begin < pgn.size();) {
    const std::size_t end = pgn.find('\n', begin);
    const std::string line = pgn.substr(begin, end - begin);
    EXPECT_LE(columns(line), 79u) << line;
    EXPECT_NE(line.substr(0, 1), "%") << line;
    EXPECT_EQ(line.find("  "), std::string::npos) << line;
    begin = end + 1;
  }
  const auto read = read_pgn(pgn, "long");
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ((*read)[0].nodes.size(), 9u);
}

}  // namespace
}  // namespace plyscribe::publish
