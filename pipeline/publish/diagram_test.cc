// What a diagram shows is read back from where its shapes stand, by the labels that it prints.
#include "publish/diagram.h"

#include <gtest/gtest.h>

#include <cctype>
#include <cmath>
#include <cstring>
#include <map>
#include <pugixml.hpp>
#include <string>

#include "board/notation.h"

namespace plyscribe::publish {
namespace {

using board::Color;
using board::Position;

// Centres of the files' and ranks' labels.
struct Labels {
  std::map<char, double> file, rank;
};

Labels labels_of(const pugi::xml_node& svg) {
  Labels labels;
  for (const auto& hit : svg.select_nodes("//text")) {
    const char c = hit.node().text().get()[0];
    if (c >= 'a') {
      labels.file[c] = hit.node().attribute("x").as_double();
    } else {
      labels.rank[c] = hit.node().attribute("y").as_double();
    }
  }
  return labels;
}

char nearest(const std::map<char, double>& labels, double where) {
  char best = '?';
  double distance = 1e9;
  for (const auto& [label, at] : labels) {
    if (std::abs(at - where) < distance) {
      distance = std::abs(at - where);
      best = label;
    }
  }
  return best;
}

// FEN's first two fields, from the picture alone.
std::string read_back(const pugi::xml_node& svg) {
  const Labels labels = labels_of(svg);
  EXPECT_EQ(labels.file.size(), 8u);
  EXPECT_EQ(labels.rank.size(), 8u);
  std::map<std::string, char> board;
  for (const auto& hit : svg.select_nodes("//use")) {
    const pugi::xml_node use = hit.node();
    const double half = use.attribute("width").as_double() / 2;
    const std::string square{nearest(labels.file, use.attribute("x").as_double() + half),
                             nearest(labels.rank, use.attribute("y").as_double() + half)};
    const std::string piece = use.attribute("href").value();
    EXPECT_TRUE(piece.starts_with("#piece-")) << piece;
    char letter = piece == "#piece-knight" ? 'n' : piece[std::strlen("#piece-")];
    const std::string fill = use.parent().attribute("fill").value();
    if (fill == "#ffffff") letter = static_cast<char>(std::toupper(letter));
    EXPECT_TRUE(board.emplace(square, letter).second) << "two pieces on " << square;
  }
  std::string fen;
  for (char rank = '8'; rank >= '1'; --rank) {
    int empty = 0;
    for (char file = 'a'; file <= 'h'; ++file) {
      const auto at = board.find({file, rank});
      if (at == board.end()) {
        ++empty;
        continue;
      }
      if (empty > 0) fen += std::to_string(empty);
      empty = 0;
      fen += at->second;
    }
    if (empty > 0) fen += std::to_string(empty);
    if (rank > '1') fen += '/';
  }
  const auto mover = svg.select_node("//circle[@r='16']").node();
  return fen + (std::string(mover.attribute("fill").value()) == "#ffffff" ? " w" : " b");
}

std::string first_two_fields(const std::string& fen) {
  return fen.substr(0, fen.find(' ', fen.find(' ') + 1));
}

const char* const kPositions[] = {
    "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
    "r1bqkb1r/pppp1ppp/2n2n2/4p1N1/2B1P3/8/PPPP1PPP/RNBQK2R b KQkq - 5 4",
    "8/8/4k3/8/3PK3/8/8/8 w - - 0 1",
    "8/P6k/8/8/8/8/p6K/8 b - - 0 60",
};

TEST(Diagram, ItsPiecesReadBackAsThePositionFromBothSides) {
  for (const char* fen : kPositions) {
    const Position p = *board::parse_fen(fen);
    for (const Color below : {Color::kWhite, Color::kBlack}) {
      pugi::xml_document svg;
      const std::string text = write_diagram(p, {.below = below});
      const auto parsed = svg.load_string(text.c_str());
      ASSERT_TRUE(parsed) << fen << ": " << parsed.description();
      EXPECT_EQ(read_back(svg.child("svg")), first_two_fields(fen));
      EXPECT_EQ(std::string(svg.child("svg").child_value("desc")), fen);
    }
  }
}

TEST(Diagram, TheSideBelowIsAtTheFoot) {
  for (const Color below : {Color::kWhite, Color::kBlack}) {
    pugi::xml_document svg;
    ASSERT_TRUE(svg.load_string(write_diagram(Position::initial(), {.below = below}).c_str()));
    const Labels labels = labels_of(svg.child("svg"));
    EXPECT_EQ(labels.rank.at('1') > labels.rank.at('8'), below == Color::kWhite);
    EXPECT_EQ(labels.file.at('a') < labels.file.at('h'), below == Color::kWhite);
  }
}

TEST(Diagram, A1IsDarkWhicheverSideIsBelow) {  // FIDE Laws of Chess, article 2.1, from memory
  for (const Color below : {Color::kWhite, Color::kBlack}) {
    const std::string svg = write_diagram(Position::initial(), {.below = below});
    EXPECT_NE(svg.find(below == Color::kWhite ? "M60 720h100v100" : "M760 20h100v100"), svg.npos);
  }
}

TEST(Diagram, TheLastMoveIsMarkedWhereItCameFromAndWhereItWent) {
  const Position p = Position::initial();
  const board::Move m = *board::parse_san(p, "Nf3");
  pugi::xml_document svg;
  ASSERT_TRUE(svg.load_string(write_diagram(p.after(m), {.last = m}).c_str()));
  const Labels labels = labels_of(svg.child("svg"));
  const auto ring = svg.select_node("//circle[@r='13']").node();
  EXPECT_EQ(nearest(labels.file, ring.attribute("cx").as_double()), 'g');
  EXPECT_EQ(nearest(labels.rank, ring.attribute("cy").as_double()), '1');
  const auto frame = svg.select_node("//rect[@fill='none']").node();
  const double half = frame.attribute("width").as_double() / 2;
  EXPECT_EQ(nearest(labels.file, frame.attribute("x").as_double() + half), 'f');
  EXPECT_EQ(nearest(labels.rank, frame.attribute("y").as_double() + half), '3');
}

TEST(Diagram, EveryPieceItUsesIsDefinedInItOnceAndNothingElse) {
  for (const char* fen : kPositions) {
    pugi::xml_document svg;
    ASSERT_TRUE(svg.load_string(write_diagram(*board::parse_fen(fen)).c_str()));
    std::map<std::string, int> defined;
    for (const auto& hit : svg.select_nodes("//symbol")) {
      ++defined["#" + std::string(hit.node().attribute("id").value())];
    }
    std::map<std::string, int> used;
    for (const auto& hit : svg.select_nodes("//use"))
      used[hit.node().attribute("href").value()] = 1;
    EXPECT_EQ(defined, used) << fen;
  }
}

TEST(Diagram, APageDefinesAllSixPieces) {
  pugi::xml_document svg;
  ASSERT_TRUE(svg.load_string(piece_symbols().c_str()));
  EXPECT_EQ(svg.select_nodes("//symbol").size(), 6u);
  ASSERT_TRUE(svg.load_string(diagram_element(Position::initial()).c_str()));
  EXPECT_EQ(svg.select_nodes("//symbol").size(), 0u);
  EXPECT_EQ(svg.select_nodes("//use").size(), 32u);
}

TEST(Diagram, IsTitledInWords) {
  EXPECT_EQ(position_in_words(*board::parse_fen("8/8/4k3/8/3PK3/8/8/8 w - - 0 1")),
            "White: king e4, pawn d4. Black: king e6. White to move.");
}

}  // namespace
}  // namespace plyscribe::publish
