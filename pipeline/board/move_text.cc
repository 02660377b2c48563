// UCI move text, and lines of moves.
#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "board/notation.h"
#include "support/shown.h"

namespace plyscribe::board {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// "12.e4" -> "e4", "3..." -> "", "4" -> "", "0-0" stays.
std::string_view without_number(std::string_view token) {
  std::size_t digits = 0;
  while (digits < token.size() && is_digit(token[digits])) ++digits;
  std::size_t end = digits;
  while (end < token.size() && token[end] == '.') ++end;
  if (end == digits && end < token.size()) return token;
  return token.substr(end);
}

}  // namespace

std::string to_uci(Move m) {
  if (m.from() == m.to()) return "0000";
  std::string out;
  for (Square s : {m.from(), m.to()}) {
    out += static_cast<char>('a' + file_of(s));
    out += static_cast<char>('1' + rank_of(s));
  }
  if (m.kind() == Move::Kind::kPromotion) out += "  nbrq"[static_cast<int>(m.promotion())];
  return out;
}

Result<Move> parse_uci(const Position& p, std::string_view uci) {
  const auto square_at = [uci](std::size_t i) {
    return uci[i] >= 'a' && uci[i] <= 'h' && uci[i + 1] >= '1' && uci[i + 1] <= '8';
  };
  const bool readable =
      (uci.size() == 4 || (uci.size() == 5 && std::string_view("nbrq").find(uci[4]) !=
                                                  std::string_view::npos)) &&
      square_at(0) && square_at(2);
  if (readable) {
    MoveList moves;
    p.legal_moves(moves);
    for (Move m : moves) {
      if (to_uci(m) == uci) return m;
    }
  }
  return Error{std::string(readable ? "illegal" : "unreadable") + " move \"" + shown(uci) +
               "\" in " + to_fen(p)};
}

Result<std::vector<Move>> parse_line(const Position& p, std::string_view text) {
  std::vector<Move> line;
  Position at = p;
  std::size_t start = 0;
  while ((start = text.find_first_not_of(" \t\r\n", start)) != std::string_view::npos) {
    const std::size_t end = std::min(text.find_first_of(" \t\r\n", start), text.size());
    const std::string_view token = without_number(text.substr(start, end - start));
    start = end;
    if (token.empty()) continue;
    const Result<Move> m = parse_san(at, token);
    if (!m) return m.error();
    line.push_back(*m);
    at = at.after(*m);
  }
  return line;
}

}  // namespace plyscribe::board
