#include <string>
#include <string_view>

#include "board/attacks.h"
#include "board/notation.h"
#include "support/shown.h"

namespace plyscribe::board {
namespace {

constexpr std::string_view kLetters = " PNBRQK";

char file_letter(Square s) { return static_cast<char>('a' + file_of(s)); }
char rank_digit(Square s) { return static_cast<char>('1' + rank_of(s)); }

// The shortest of file, rank, square that tells m from the same piece's other moves to the square
// (PGN standard 8.2.3.4: file before rank before both).
std::string disambiguation(const Position& p, Move m) {
  const PieceType type = p.type_at(m.from());
  MoveList moves;
  p.legal_moves(moves);
  bool rival = false, same_file = false, same_rank = false;
  for (Move other : moves) {
    if (other.to() != m.to() || other.from() == m.from() || p.type_at(other.from()) != type) {
      continue;
    }
    rival = true;
    same_file |= file_of(other.from()) == file_of(m.from());
    same_rank |= rank_of(other.from()) == rank_of(m.from());
  }
  std::string out;
  if (rival && (!same_file || same_rank)) out += file_letter(m.from());
  if (rival && same_file) out += rank_digit(m.from());
  return out;
}

// What a SAN text asks for.
struct Wanted {
  bool castling = false, long_side = false;
  PieceType type = PieceType::kPawn;
  int from_file = -1, from_rank = -1;
  Square to = kNoSquare;
  PieceType promotion = PieceType::kNone;

  bool fits(const Position& p, Move m) const {
    if (castling) {
      return m.kind() == Move::Kind::kCastling && (file_of(m.to()) == 2) == long_side;
    }
    return m.to() == to && m.kind() != Move::Kind::kCastling && p.type_at(m.from()) == type &&
           (from_file < 0 || file_of(m.from()) == from_file) &&
           (from_rank < 0 || rank_of(m.from()) == from_rank) &&
           (promotion == PieceType::kNone || m.promotion() == promotion);
  }
};

bool is_file(char c) { return c >= 'a' && c <= 'h'; }
bool is_rank(char c) { return c >= '1' && c <= '8'; }

std::string_view without_suffix(std::string_view san) {
  while (!san.empty() && std::string_view("+#!?=").find(san.back()) != std::string_view::npos) {
    san.remove_suffix(1);
  }
  for (std::string_view passing : {"e.p.", "ep"}) {
    if (san.size() > passing.size() && san.ends_with(passing)) {
      san.remove_suffix(passing.size());
      while (!san.empty() && san.back() == ' ') san.remove_suffix(1);
    }
  }
  return san;
}

bool read_castling(std::string_view san, Wanted& wanted) {
  std::string plain;
  for (char c : san) plain += c == '0' || c == 'o' ? 'O' : c;
  if (plain != "O-O" && plain != "O-O-O") return false;
  wanted.castling = true;
  wanted.long_side = plain.size() == 5;
  return true;
}

// From the right: promotion, target, separator, origin; what then remains is the piece letter.
bool read(std::string_view san, Wanted& wanted) {
  san = without_suffix(san);
  if (read_castling(san, wanted)) return true;

  if (san.size() > 2 && san.back() == ')' && san[san.size() - 3] == '(') {
    san.remove_suffix(1);
  }
  if (san.size() > 2 && !is_rank(san.back())) {
    const char letter = san.back();
    const char upper = letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A')
                                                      : letter;
    const std::size_t type = kLetters.find(upper);
    if (type == std::string_view::npos || type < 2 || type > 5) return false;
    wanted.promotion = static_cast<PieceType>(type);
    san.remove_suffix(1);
    if (san.back() == '=' || san.back() == '(' || san.back() == '/') san.remove_suffix(1);
  }

  if (san.size() < 2 || !is_rank(san.back()) || !is_file(san[san.size() - 2])) return false;
  wanted.to = make_square(san[san.size() - 2] - 'a', san.back() - '1');
  san.remove_suffix(2);
  if (!san.empty() && (san.back() == 'x' || san.back() == ':' || san.back() == '-')) {
    san.remove_suffix(1);
  }
  if (!san.empty() && is_rank(san.back())) {
    wanted.from_rank = san.back() - '1';
    san.remove_suffix(1);
  }
  if (!san.empty() && is_file(san.back())) {
    wanted.from_file = san.back() - 'a';
    san.remove_suffix(1);
  }
  if (san.empty()) return true;
  const std::size_t type = kLetters.find(san.front());
  if (san.size() != 1 || type == 0 || type == std::string_view::npos) return false;
  wanted.type = static_cast<PieceType>(type);
  return true;
}

}  // namespace

std::string to_san(const Position& p, Move m) {
  std::string out;
  const PieceType type = p.type_at(m.from());
  if (m.kind() == Move::Kind::kCastling) {
    out = file_of(m.to()) == 6 ? "O-O" : "O-O-O";
  } else {
    if (type != PieceType::kPawn) {
      out += kLetters[static_cast<std::size_t>(type)];
      if (type != PieceType::kKing) out += disambiguation(p, m);
    } else if (p.is_capture(m)) {
      out += file_letter(m.from());
    }
    if (p.is_capture(m)) out += 'x';
    out += file_letter(m.to());
    out += rank_digit(m.to());
    if (m.kind() == Move::Kind::kPromotion) {
      out += '=';
      out += kLetters[static_cast<std::size_t>(m.promotion())];
    }
  }
  const Position next = p.after(m);
  if (next.in_check()) out += next.is_checkmate() ? '#' : '+';
  return out;
}

Result<Move> parse_san(const Position& p, std::string_view san) {
  const auto failure = [&](const char* kind) {
    return Error{std::string(kind) + " move \"" + shown(san) + "\" in " + to_fen(p)};
  };
  Wanted wanted;
  if (!read(san, wanted)) return failure("unreadable");
  MoveList moves;
  p.legal_moves(moves);
  Move found = kNoMove;
  for (Move m : moves) {
    if (!wanted.fits(p, m)) continue;
    if (found != kNoMove) return failure("ambiguous");
    found = m;
  }
  if (found == kNoMove) return failure("illegal");
  return found;
}

}  // namespace plyscribe::board
