#include "publish/notation.h"

#include <gtest/gtest.h>

#include <string>

namespace plyscribe::publish {
namespace {

// PGN standard of 1994, section 8.2.3.2: pawn, knight, bishop, rook, queen, king of its 17
// languages (quoted from memory).
TEST(Notation, PieceLettersAreTheStandards) {
  const char* const kStandard[][2] = {
      {"Czech", "P J S V D K"},     {"Danish", "B S L T D K"},     {"Dutch", "O P L T D K"},
      {"English", "P N B R Q K"},   {"Estonian", "P R O V L K"},   {"Finnish", "P R L T D K"},
      {"French", "P C F T D R"},    {"German", "B S L T D K"},     {"Hungarian", "G H F B V K"},
      {"Icelandic", "P R B H D K"}, {"Italian", "P C A T D R"},    {"Norwegian", "B S L T D K"},
      {"Polish", "P S G W H K"},    {"Portuguese", "P C B T D R"}, {"Romanian", "P C N T D R"},
      {"Spanish", "P C A T D R"},   {"Swedish", "B S L T D K"},
  };
  ASSERT_EQ(piece_languages().size(), std::size(kStandard));
  for (std::size_t i = 0; i < std::size(kStandard); ++i) {
    EXPECT_EQ(piece_languages()[i].language, kStandard[i][0]);
    std::string spaced;
    for (const char c : piece_languages()[i].letters) {
      if (!spaced.empty()) spaced += ' ';
      spaced += c;
    }
    EXPECT_EQ(spaced, kStandard[i][1]) << kStandard[i][0];
  }
}

TEST(Notation, MovesInLettersFigurinesAndWords) {
  struct Row {
    const char *san, *german, *figurines, *words;
  };
  const Row rows[] = {
      {"e4", "e4", "e4", "e4"},
      {"exd5", "exd5", "exd5", "e takes d5"},
      {"Nf3", "Sf3", "♘f3", "knight f3"},
      {"Nbd7", "Sbd7", "♘bd7", "knight b d7"},
      {"R1xe4", "T1xe4", "♖1xe4", "rook 1 takes e4"},
      {"Qh4xe1", "Dh4xe1", "♕h4xe1", "queen h4 takes e1"},
      {"Bb5+", "Lb5+", "♗b5+", "bishop b5 check"},
      {"Qxf7#", "Dxf7#", "♕xf7#", "queen takes f7 mate"},
      {"O-O", "O-O", "O-O", "castles kingside"},
      {"O-O-O+", "O-O-O+", "O-O-O+", "castles queenside check"},
      {"bxa8=Q+", "bxa8=D+", "bxa8=♕+", "b takes a8 queen check"},
      {"Kd8", "Kd8", "♔d8", "king d8"},
  };
  for (const Row& row : rows) {
    EXPECT_EQ(write_move(row.san, {}), row.san);
    EXPECT_EQ(write_move(row.san, {.language = "German"}), row.german);
    EXPECT_EQ(write_move(row.san, {.style = NotationStyle::kFigurines}), row.figurines);
    EXPECT_EQ(write_move(row.san, {.style = NotationStyle::kWords}), row.words);
  }
}

}  // namespace
}  // namespace plyscribe::publish
