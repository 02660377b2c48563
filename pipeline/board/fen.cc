#include <algorithm>
#include <charconv>
#include <string>
#include <string_view>
#include <vector>

#include "board/attacks.h"
#include "board/notation.h"
#include "support/shown.h"

namespace plyscribe::board {
namespace {

constexpr std::string_view kLetters = " pnbrqk";

std::vector<std::string_view> fields_of(std::string_view text) {
  std::vector<std::string_view> fields;
  std::size_t at = 0;
  while ((at = text.find_first_not_of(" \t\r\n", at)) != std::string_view::npos) {
    const std::size_t end = std::min(text.find_first_of(" \t\r\n", at), text.size());
    fields.push_back(text.substr(at, end - at));
    at = end;
  }
  return fields;
}

// Each reader returns what is wrong, or nullptr.
const char* read_placement(std::string_view field, Position& p) {
  int rank = 7, file = 0;
  bool after_digit = false;
  for (char c : field) {
    if (c == '/') {
      if (file != 8) return "a rank has not eight squares";
      if (--rank < 0) return "more than eight ranks";
      file = 0;
      after_digit = false;
    } else if (c >= '1' && c <= '8') {
      if (after_digit) return "two digits in a row";
      after_digit = true;
      file += c - '0';
      if (file > 8) return "a rank has not eight squares";
    } else {
      const bool white = c >= 'A' && c <= 'Z';
      const std::size_t type = kLetters.find(white ? static_cast<char>(c - 'A' + 'a') : c);
      if (type == std::string_view::npos || type == 0) return "unknown letter in the placement";
      if (file > 7) return "a rank has not eight squares";
      p.put(white ? Color::kWhite : Color::kBlack, static_cast<PieceType>(type),
            make_square(file, rank));
      ++file;
      after_digit = false;
    }
  }
  if (rank != 0) return "fewer than eight ranks";
  if (file != 8) return "a rank has not eight squares";
  return nullptr;
}

const char* check_men(const Position& p) {
  const Bitboard pawns = p.pieces(PieceType::kPawn);
  for (Color c : {Color::kWhite, Color::kBlack}) {
    if (std::popcount(p.pieces(c, PieceType::kKing)) != 1) return "each side needs one king";
    if (std::popcount(p.pieces(c)) > 16) return "more than sixteen men";
    if (std::popcount(p.pieces(c) & pawns) > 8) return "more than eight pawns";
  }
  if (pawns & (rank_mask(0) | rank_mask(7))) return "a pawn on an end rank";
  return nullptr;
}

const char* read_castling(std::string_view field, Position& p) {
  if (field == "-") return nullptr;
  std::uint8_t rights = 0;
  for (char c : field) {
    const std::size_t index = std::string_view("KQkq").find(c);
    if (index == std::string_view::npos) return "castling must be - or some of KQkq";
    const auto right = static_cast<std::uint8_t>(1U << index);
    if (rights & right) return "a castling right named twice";
    rights |= right;
    const Color color = index < 2 ? Color::kWhite : Color::kBlack;
    const int rank = index < 2 ? 0 : 7;
    if (!(p.pieces(color, PieceType::kKing) & bit(make_square(4, rank))) ||
        !(p.pieces(color, PieceType::kRook) & bit(make_square(index % 2 == 0 ? 7 : 0, rank)))) {
      return "castling right without king and rook at home";
    }
  }
  p.set_castling(rights);
  return nullptr;
}

const char* read_en_passant(std::string_view field, Position& p) {
  if (field == "-") return nullptr;
  if (field.size() != 2 || field[0] < 'a' || field[0] > 'h' || field[1] < '1' || field[1] > '8') {
    return "the en-passant field must be - or a square";
  }
  const bool white = p.side_to_move() == Color::kWhite;
  const Square s = make_square(field[0] - 'a', field[1] - '1');
  if (rank_of(s) != (white ? 5 : 2)) return "en-passant square on the wrong rank";
  const Square victim = static_cast<Square>(s + (white ? -8 : 8));
  const Square origin = static_cast<Square>(s + (white ? 8 : -8));
  if (!(p.pieces(~p.side_to_move(), PieceType::kPawn) & bit(victim))) {
    return "en-passant square without a pawn before it";
  }
  if (p.occupied() & (bit(s) | bit(origin))) return "en-passant square or the one behind is occupied";
  p.set_en_passant(s);
  return nullptr;
}

bool read_number(std::string_view field, int least, int& value) {
  const auto [end, error] = std::from_chars(field.data(), field.data() + field.size(), value);
  return error == std::errc() && end == field.data() + field.size() && value >= least &&
         value <= 9999;
}

const char* read(std::string_view fen, Position& p) {
  const std::vector<std::string_view> fields = fields_of(fen);
  if (fields.size() != 4 && fields.size() != 6) return "expected six fields, or the first four";
  if (const char* wrong = read_placement(fields[0], p)) return wrong;
  if (fields[1] != "w" && fields[1] != "b") return "the side to move must be w or b";
  p.set_side(fields[1] == "w" ? Color::kWhite : Color::kBlack);
  if (const char* wrong = check_men(p)) return wrong;
  if (const char* wrong = read_castling(fields[2], p)) return wrong;
  if (const char* wrong = read_en_passant(fields[3], p)) return wrong;
  int halfmove = 0, fullmove = 1;
  if (fields.size() == 6) {
    if (!read_number(fields[4], 0, halfmove)) return "the halfmove clock must be 0 to 9999";
    if (!read_number(fields[5], 1, fullmove)) return "the move number must be 1 to 9999";
  }
  p.set_clocks(halfmove, fullmove);
  const Color waiting = ~p.side_to_move();
  if (p.attackers_to(p.king(waiting), p.occupied()) & p.pieces(p.side_to_move())) {
    return "the side not to move is in check";
  }
  return nullptr;
}

}  // namespace

Result<Position> parse_fen(std::string_view fen) {
  Position p;
  if (const char* wrong = read(fen, p)) {
    return Error{"FEN \"" + shown(fen) + "\": " + wrong};
  }
  return p;
}

std::string to_fen_placement(const Position& p) {
  std::string out;
  for (int rank = 7; rank >= 0; --rank) {
    int empty = 0;
    for (int file = 0; file < 8; ++file) {
      const Square s = make_square(file, rank);
      const PieceType t = p.type_at(s);
      if (t == PieceType::kNone) {
        ++empty;
        continue;
      }
      if (empty) out += static_cast<char>('0' + empty);
      empty = 0;
      const char letter = kLetters[static_cast<std::size_t>(t)];
      out += p.color_at(s) == Color::kWhite ? static_cast<char>(letter - 'a' + 'A') : letter;
    }
    if (empty) out += static_cast<char>('0' + empty);
    if (rank > 0) out += '/';
  }
  out += p.side_to_move() == Color::kWhite ? " w " : " b ";
  for (int i = 0; i < 4; ++i) {
    if (p.castling() & (1 << i)) out += "KQkq"[i];
  }
  if (!p.castling()) out += '-';
  return out;
}

std::string to_fen(const Position& p) {
  std::string out = to_fen_placement(p);
  if (const Square s = p.en_passant(); s == kNoSquare) {
    out += " -";
  } else {
    out += ' ';
    out += static_cast<char>('a' + file_of(s));
    out += static_cast<char>('1' + rank_of(s));
  }
  out += ' ' + std::to_string(p.halfmove_clock()) + ' ' + std::to_string(p.fullmove_number());
  return out;
}

}  // namespace plyscribe::board
