// Positions and moves: what is read is legal, and what is written reads back the same.
#include <algorithm>
#include <set>

#include "board/notation.h"
#include "tests/fuzz/target.h"

namespace plyscribe::fuzz {
namespace {

using board::Move;
using board::Position;

void expect_round_trips(const Position& p) {
  board::MoveList moves;
  p.legal_moves(moves);
  std::set<std::string> names;
  for (const Move m : moves) {
    expect(p.is_legal(m), "a listed move is legal");
    const std::string name = board::to_san(p, m);
    expect(names.insert(name).second, "no two moves have one name");
    const auto by_name = board::parse_san(p, name);
    expect(by_name && *by_name == m, "a move reads back from its SAN");
    const auto by_squares = board::parse_uci(p, board::to_uci(m));
    expect(by_squares && *by_squares == m, "a move reads back from its squares");
    const Position after = p.after(m);
    expect(after.in_check() == p.gives_check(m), "check is told before the move and after");
    Position copy = p;
    board::Undo undo;
    copy.make(m, undo);
    expect(copy.key() == after.key(), "make and after agree");
    copy.unmake(m, undo);
    expect(board::to_fen(copy) == board::to_fen(p), "a move taken back leaves no trace");
  }
}

}  // namespace

void fen(std::string_view bytes) {
  const auto p = board::parse_fen(bytes);
  if (!p) return expect_line(p.error().message);
  const std::string text = board::to_fen(*p);
  const auto again = board::parse_fen(text);
  expect(static_cast<bool>(again), "a FEN that was written is read");
  expect(board::to_fen(*again) == text, "... and written again");
  expect(again->key() == p->key(), "... as the same position");
  expect_round_trips(*p);
}

// First line a FEN, then moves; the initial position where that can't be read.
void san(std::string_view bytes) {
  const std::size_t end = std::min(bytes.find('\n'), bytes.size());
  const auto told = board::parse_fen(bytes.substr(0, end));
  Position p = told ? *told : Position::initial();
  bytes.remove_prefix(told ? std::min(end + 1, bytes.size()) : 0);
  const auto line = board::parse_line(p, bytes);
  if (!line) expect_line(line.error().message);
  while (!bytes.empty()) {
    const std::size_t blank = std::min(bytes.find(' '), bytes.size());
    for (const auto& move : {board::parse_san(p, bytes.substr(0, blank)),
                             board::parse_uci(p, bytes.substr(0, blank))}) {
      if (!move) {
        expect_line(move.error().message);
        continue;
      }
      expect(p.is_legal(*move), "a move that is read is legal");
      const auto again = board::parse_san(p, board::to_san(p, *move));
      expect(again && *again == *move, "a move reads back from its SAN");
      p = p.after(*move);
      break;
    }
    bytes.remove_prefix(std::min(blank + 1, bytes.size()));
  }
}

}  // namespace plyscribe::fuzz
