#include "publish/drill_cards.h"

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <string>

#include "tests/publish/sketch.h"

namespace plyscribe::publish {
namespace {

using lesson::Advice;
using lesson::Lesson;
using tests::Sketch;

using Row = std::map<std::string, std::string>;

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> parts(1);
  for (const char c : text) {
    if (c == at) {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

std::vector<Row> rows(const std::vector<Output>& files) {
  EXPECT_EQ(files.front().name, "cards.tsv");
  EXPECT_TRUE(files.front().bytes.ends_with('\n'));
  auto lines = split(files.front().bytes, '\n');
  lines.pop_back();
  const auto names = split(lines.front(), '\t');
  std::vector<Row> out;
  for (std::size_t i = 1; i < lines.size(); ++i) {
    const auto cells = split(lines[i], '\t');
    EXPECT_EQ(cells.size(), names.size()) << lines[i];
    Row row;
    for (std::size_t k = 0; k < std::min(cells.size(), names.size()); ++k) row[names[k]] = cells[k];
    out.push_back(row);
  }
  return out;
}

// 1. e4 e5 2. Nf3 Nc6 (2... d6, 2... f6), for Black.
struct Fixture {
  Sketch s;
  std::int32_t e4 = s.play(0, "e4", 1), e5 = s.play(e4, "e5", 62), nf3 = s.play(e5, "Nf3", 3),
               nc6 = s.play(nf3, "Nc6", 4), d6 = s.play(nf3, "d6", 5), f6 = s.play(nf3, "f6", 6);

  Lesson lesson() const {
    Lesson lesson = s.lesson();
    lesson.side = board::Color::kBlack;
    return lesson;
  }
  static lesson::Node& at(Lesson& lesson, std::int32_t id) {
    return lesson.nodes[static_cast<std::size_t>(id)];
  }
};

TEST(Cards, WithoutAdviceOnlyTheMoveThatStandsAloneIsOne) {
  Fixture f;
  const Lesson lesson = f.lesson();
  const auto files = write_cards(lesson, Link::of_media("a.mp4"));
  const auto all = rows(files);
  ASSERT_EQ(all.size(), 1u);
  EXPECT_EQ(all[0].at("fen"), "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq - 0 1");
  EXPECT_EQ(all[0].at("line"), "1. e4");
  EXPECT_EQ(all[0].at("move"), "1... e5");
  EXPECT_EQ(all[0].at("why"), "the only move that the lesson goes on with");
  EXPECT_EQ(all[0].at("basis"), "shown");
  EXPECT_EQ(all[0].at("time"), "1:02");
  EXPECT_EQ(all[0].at("link"), "a.mp4#t=62");
  ASSERT_EQ(files.size(), 2u);
  EXPECT_EQ(files[1].name, all[0].at("diagram"));
  EXPECT_NE(files[1].bytes.find("<desc>" + all[0].at("fen") + "</desc>"), std::string::npos);

  const auto lacking = gaps(lesson);
  ASSERT_EQ(lacking.size(), 1u);
  EXPECT_EQ(lacking[0].at, f.nf3);
  EXPECT_EQ(lacking[0].lack, Lack::kAdvice);
}

TEST(Cards, AdviceIsAskedForWithItsWords) {
  Fixture f;
  Lesson lesson = f.lesson();
  f.at(lesson, f.nc6).advice = Advice::kRecommended;
  f.at(lesson, f.nc6).counsels = {{Advice::kRecommended, {7, 8, 0, 0, "this is what I play"}}};
  f.at(lesson, f.nc6).judgements = {{11, {8, 9, 0, 0, "equal"}}};
  f.at(lesson, f.d6).advice = Advice::kPlayable;
  f.at(lesson, f.f6).advice = Advice::kAvoided;
  const auto all = rows(write_cards(lesson, {}));
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[1].at("line"), "1. e4 e5 2. Nf3");
  EXPECT_EQ(all[1].at("move"), "2... Nc6");
  EXPECT_EQ(all[1].at("why"),
            "\u201cthis is what I play\u201d; equal, quiet; also playable: 2... d6; not 2... f6");
  EXPECT_EQ(all[1].at("basis"), "advised");
  EXPECT_EQ(all[1].at("time"), "0:07");
  EXPECT_EQ(all[1].at("link"), "");
  EXPECT_TRUE(gaps(lesson).empty());

  f.at(lesson, f.d6).advice = Advice::kRecommended;
  EXPECT_EQ(rows(write_cards(lesson, {}))[1].at("move"), "2... Nc6 or 2... d6");
}

TEST(Cards, NothingUncertainIsDrilled) {
  Fixture f;
  Lesson lesson = f.lesson();
  f.at(lesson, f.nc6).advice = Advice::kRecommended;
  f.at(lesson, f.nc6).status = lesson::Status::kUnsure;
  EXPECT_EQ(rows(write_cards(lesson, {})).size(), 1u);
  ASSERT_EQ(gaps(lesson).size(), 1u);
  EXPECT_EQ(gaps(lesson)[0].lack, Lack::kCertainty);

  f.at(lesson, f.nc6).status = lesson::Status::kMended;
  f.at(lesson, f.e4).status = lesson::Status::kUnsure;  // on the way to both
  EXPECT_TRUE(rows(write_cards(lesson, {})).empty());
  EXPECT_EQ(gaps(lesson).size(), 2u);

  f.at(lesson, f.e4).status = lesson::Status::kClear;
  lesson.start.confidence = 0.5;
  EXPECT_TRUE(rows(write_cards(lesson, {})).empty());
}

TEST(Cards, ATranspositionGivesOneCard) {
  Sketch s;
  const auto d4 = s.play(0, "d4", 1), d5 = s.play(d4, "d5", 2), c4 = s.play(d5, "c4", 3),
             e6 = s.play(c4, "e6", 4), c4b = s.play(0, "c4", 5), e6b = s.play(c4b, "e6", 6),
             d4b = s.play(e6b, "d4", 7), d5b = s.play(d4b, "d5", 8);
  const auto nc3 = s.play(e6, "Nc3", 9);
  s.play(d5b, "Nc3", 10);
  Lesson lesson = s.lesson();
  Fixture::at(lesson, nc3).advice = Advice::kRecommended;
  std::set<std::string> positions;
  std::size_t cards_with_knight = 0;
  for (const Row& row : rows(write_cards(lesson, {}))) {
    EXPECT_TRUE(positions.insert(row.at("diagram")).second) << row.at("line");
    if (row.at("move") == "3. Nc3") ++cards_with_knight;
  }
  EXPECT_EQ(cards_with_knight, 1u);
}

TEST(Cards, ContradictoryAdviceIsNotDrilled) {
  Fixture f;
  Lesson lesson = f.lesson();
  f.at(lesson, f.nc6).counsels = {{Advice::kRecommended, {7, 8, 0, 0, "play this"}},
                                  {Advice::kAvoided, {90, 91, 0, 0, "don't play this"}}};
  EXPECT_EQ(rows(write_cards(lesson, {})).size(), 1u);
  EXPECT_EQ(gaps(lesson)[0].lack, Lack::kAgreement);
}

TEST(Cell, HoldsNoSeparatorAndNoFormula) {
  const std::pair<const char*, const char*> kCells[] = {
      {"plain", "plain"},
      {"a\tb\r\nc", "a b c"},
      {"  spaced  out ", "spaced out"},
      {"=1+1", "'=1+1"},
      {"+1", "'+1"},
      {"-1", "'-1"},
      {"@sum", "'@sum"},
      {"\t=1", "'=1"},
      {"1-0", "1-0"},
      {"", ""},
      {"\u201cgood\u201d", "\u201cgood\u201d"},
  };
  for (const auto& [in, out] : kCells) EXPECT_EQ(cell(in), out) << in;
}

}  // namespace
}  // namespace plyscribe::publish
