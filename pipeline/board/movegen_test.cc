// The generator against the rules written down naively: every move that can be encoded is tried on
// a plain array, with no bitboard and no pin, on positions strewn at random.
#include "board/movegen.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <random>
#include <set>
#include <string>

#include "board/notation.h"

namespace plyscribe::board {
namespace {

struct Naive {
  PieceType type[64] = {};
  bool white[64] = {};
  bool white_to_move = true;
  int castling = 0;
  int en_passant = 64;

  explicit Naive(const Position& p)
      : white_to_move(p.side_to_move() == Color::kWhite),
        castling(p.castling()),
        en_passant(p.en_passant()) {
    for (Square s = 0; s < 64; ++s) {
      type[s] = p.type_at(s);
      white[s] = type[s] != PieceType::kNone && p.color_at(s) == Color::kWhite;
    }
  }

  bool empty(int s) const { return type[s] == PieceType::kNone; }

  bool clear_between(int a, int b) const {
    const int df = (b % 8 > a % 8) - (b % 8 < a % 8), dr = (b / 8 > a / 8) - (b / 8 < a / 8);
    for (int s = a + df + 8 * dr; s != b; s += df + 8 * dr) {
      if (!empty(s)) return false;
    }
    return true;
  }

  // Does the man on a attack b?
  bool attacks(int a, int b) const {
    if (a == b) return false;
    const int df = b % 8 - a % 8, dr = b / 8 - a / 8;
    const bool diagonal = std::abs(df) == std::abs(dr), straight = df == 0 || dr == 0;
    switch (type[a]) {
      case PieceType::kNone: return false;
      case PieceType::kPawn: return std::abs(df) == 1 && dr == (white[a] ? 1 : -1);
      case PieceType::kKnight: return df * df + dr * dr == 5;
      case PieceType::kBishop: return diagonal && clear_between(a, b);
      case PieceType::kRook: return straight && clear_between(a, b);
      case PieceType::kQueen: return (diagonal || straight) && clear_between(a, b);
      case PieceType::kKing: return std::abs(df) <= 1 && std::abs(dr) <= 1;
    }
    return false;
  }

  bool attacked(int s, bool by_white) const {
    for (int a = 0; a < 64; ++a) {
      if (!empty(a) && white[a] == by_white && attacks(a, s)) return true;
    }
    return false;
  }

  bool king_attacked(bool white_king) const {
    for (int s = 0; s < 64; ++s) {
      if (type[s] == PieceType::kKing && white[s] == white_king) return attacked(s, !white_king);
    }
    return false;
  }

  void carry(int from, int to) {
    type[to] = type[from];
    white[to] = white[from];
    type[from] = PieceType::kNone;
  }

  bool may_castle(int from, int to) const {
    const int home = white_to_move ? 0 : 56;
    if (from != home + 4 || type[from] != PieceType::kKing) return false;
    const bool is_short = to == home + 6;
    const int right = (white_to_move ? 1 : 4) * (is_short ? 1 : 2);
    if (!(castling & right) || !clear_between(from, is_short ? home + 7 : home)) return false;
    for (int s = std::min(from, to); s <= std::max(from, to); ++s) {
      if (attacked(s, !white_to_move)) return false;
    }
    return true;
  }

  bool pawn_reaches(int from, int to) const {
    const int up = white_to_move ? 8 : -8;
    if (to == from + up) return empty(to);
    if (to == from + 2 * up) {
      return from / 8 == (white_to_move ? 1 : 6) && empty(from + up) && empty(to);
    }
    return attacks(from, to) && (!empty(to) || to == en_passant);
  }

  std::set<std::string> legal_moves() const {
    std::set<std::string> moves;
    for (int from = 0; from < 64; ++from) {
      if (empty(from) || white[from] != white_to_move) continue;
      for (int to = 0; to < 64; ++to) {
        if (!empty(to) && white[to] == white_to_move) continue;
        const bool pawn = type[from] == PieceType::kPawn;
        if (!(pawn ? pawn_reaches(from, to) : attacks(from, to))) continue;
        Naive next = *this;
        if (pawn && to % 8 != from % 8 && empty(to)) {
          next.type[to + (white_to_move ? -8 : 8)] = PieceType::kNone;
        }
        next.carry(from, to);
        if (next.king_attacked(white_to_move)) continue;
        const std::string uci = to_uci(Move(static_cast<Square>(from), static_cast<Square>(to)));
        if (pawn && (to / 8 == 0 || to / 8 == 7)) {
          for (char c : {'n', 'b', 'r', 'q'}) moves.insert(uci + c);
        } else {
          moves.insert(uci);
        }
      }
    }
    for (const char* uci : {"e1g1", "e1c1", "e8g8", "e8c8"}) {
      const int from = 4 + 8 * (uci[1] - '1'), to = uci[2] - 'a' + 8 * (uci[3] - '1');
      if ((uci[1] == '1') == white_to_move && may_castle(from, to)) moves.insert(uci);
    }
    return moves;
  }
};

std::string joined(const std::set<std::string>& moves) {
  std::string out;
  for (const std::string& m : moves) out += m + ' ';
  return out;
}

// Men strewn at random, kings first; castling rights and en-passant square where they make sense.
// A position in which the side not to move is in check is thrown again.
Position strewn(std::mt19937_64& random) {
  for (;;) {
    Position p;
    const bool at_home = random() % 3 == 0;
    p.put(Color::kWhite, PieceType::kKing, at_home ? 4 : static_cast<Square>(random() % 64));
    Square black_king = at_home ? 60 : static_cast<Square>(random() % 64);
    if (black_king == p.king(Color::kWhite)) continue;
    p.put(Color::kBlack, PieceType::kKing, black_king);
    if (at_home) {
      for (Square s : {Square{0}, Square{7}}) {
        p.put(Color::kWhite, PieceType::kRook, s);
        p.put(Color::kBlack, PieceType::kRook, static_cast<Square>(s + 56));
      }
      p.set_castling(static_cast<std::uint8_t>(random() % 16));
    }
    const auto men = 2 + random() % 16;
    for (std::uint64_t i = 0; i < men; ++i) {
      const Square s = static_cast<Square>(random() % 64);
      auto type = static_cast<PieceType>(1 + random() % 5);
      const bool end_rank = rank_of(s) == 0 || rank_of(s) == 7;
      if (p.type_at(s) != PieceType::kNone || (type == PieceType::kPawn && end_rank)) continue;
      p.put(random() % 2 ? Color::kWhite : Color::kBlack, type, s);
    }
    p.set_side(random() % 2 ? Color::kWhite : Color::kBlack);
    const Color us = p.side_to_move();
    if (random() % 2) {  // a double step just played beside one of our pawns
      const int rank = us == Color::kWhite ? 4 : 3, file = static_cast<int>(random() % 7);
      const int up = us == Color::kWhite ? 8 : -8;
      const Square victim = make_square(file, rank), taker = make_square(file + 1, rank);
      const Square target = static_cast<Square>(victim + up);
      if (!(p.occupied() & (bit(victim) | bit(taker) | bit(target) |
                            bit(static_cast<Square>(target + up))))) {
        p.put(~us, PieceType::kPawn, victim);
        p.put(us, PieceType::kPawn, taker);
        p.set_en_passant(target);
      }
    }
    if (p.attackers_to(p.king(~us), p.occupied()) & p.pieces(us)) continue;
    return p;
  }
}

TEST(MoveGeneration, AgreesWithTheNaiveRulesOnRandomPositions) {
  std::mt19937_64 random(4242);
  int checks = 0, double_checks = 0, castlings = 0, passings = 0;
  for (int round = 0; round < 30000; ++round) {
    const Position p = strewn(random);
    const std::set<std::string> expected = Naive(p).legal_moves();
    MoveList list;
    p.legal_moves(list);
    std::set<std::string> found;
    for (Move m : list) {
      found.insert(to_uci(m));
      castlings += m.kind() == Move::Kind::kCastling;
      passings += m.kind() == Move::Kind::kEnPassant;
    }
    ASSERT_EQ(joined(found), joined(expected)) << to_fen(p);
    ASSERT_EQ(list.size(), expected.size()) << "a move twice in " << to_fen(p);
    ASSERT_EQ(perft(p, 1), expected.size()) << to_fen(p);
    checks += p.in_check();
    double_checks += more_than_one(p.checkers());
  }
  EXPECT_GT(checks, 5000);
  EXPECT_GT(double_checks, 300);
  EXPECT_GT(castlings, 1000);
  EXPECT_GT(passings, 1000);
}

// set_en_passant keeps a square exactly where taking there is legal; here both outcomes are tried
// against the naive rules with the square forced.
TEST(MoveGeneration, EnPassantSquareIsDroppedOnlyWhereTakingIsIllegal) {
  std::mt19937_64 random(777);
  int dropped = 0;
  for (int round = 0; round < 60000; ++round) {
    const Position p = strewn(random);
    if (p.en_passant() != kNoSquare) continue;
    Naive naive(p);
    const bool white = p.side_to_move() == Color::kWhite;
    for (int file = 0; file < 8; ++file) {
      const Square target = make_square(file, white ? 5 : 2);
      const Square victim = make_square(file, white ? 4 : 3);
      const Square origin = make_square(file, white ? 6 : 1);
      if (!naive.empty(target) || !naive.empty(origin) || naive.type[victim] != PieceType::kPawn ||
          naive.white[victim] == white) {
        continue;
      }
      naive.en_passant = target;
      const std::string suffix = to_uci(Move(0, target)).substr(2);
      bool can_take = false;
      for (const std::string& uci : naive.legal_moves()) {
        const int from = uci[0] - 'a' + 8 * (uci[1] - '1');
        can_take |= uci.substr(2) == suffix && naive.type[from] == PieceType::kPawn &&
                    uci[0] != suffix[0];
      }
      Position q = p;
      q.set_en_passant(target);
      ASSERT_EQ(q.en_passant() == target, can_take) << to_fen(p) << ' ' << suffix;
      dropped += !can_take;
    }
  }
  EXPECT_GT(dropped, 100);
}

TEST(MoveGeneration, IsLegalAcceptsOnlyTheListedMoves) {
  std::mt19937_64 random(99);
  for (int round = 0; round < 10; ++round) {
    const Position p = strewn(random);
    MoveList list;
    p.legal_moves(list);
    std::size_t accepted = 0;
    for (std::uint32_t bits = 0; bits < 65536; ++bits) {
      accepted += p.is_legal(Move::from_bits(static_cast<std::uint16_t>(bits)));
    }
    EXPECT_EQ(accepted, list.size()) << to_fen(p);
  }
}

}  // namespace
}  // namespace plyscribe::board
