// A move in the notation that a reader is used to.
//
//   write_move("Nxe5+", {})                                       Nxe5+
//   write_move("Nxe5+", {.language = "German"})                   Sxe5+
//   write_move("Nxe5+", {.style = NotationStyle::kFigurines})     ♘xe5+
//   write_move("Nxe5+", {.style = NotationStyle::kWords})         knight takes e5 check
//
// Piece letters: PGN standard of 1994, section 8.2.3.2, all of its languages. Figurines are the
// white chess symbols of Unicode (U+2654 to U+2658) for both sides, as in print.
#ifndef PLYSCRIBE_PUBLISH_NOTATION_H_
#define PLYSCRIBE_PUBLISH_NOTATION_H_

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace plyscribe::publish {

enum class NotationStyle : std::uint8_t { kLetters, kWords, kFigurines };

// How moves are written.
struct Notation {
  NotationStyle style = NotationStyle::kLetters;
  std::string_view language = "English";  // of the piece letters; one of piece_languages()
};

// The move is SAN as board::to_san writes it.
std::string write_move(std::string_view san, const Notation& notation);

// The letters of pawn, knight, bishop, rook, queen and king in a language.
struct PieceLetters {
  std::string_view language;
  std::string_view letters;  // pawn, knight, bishop, rook, queen, king
};
std::span<const PieceLetters> piece_languages();

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_NOTATION_H_
