// Static exchange: the swap list on one square.
//
// gain[i] is what the side making the i-th capture has won if the other side then stops. Filled
// forwards, it is folded backwards: each side after the first may stop instead. Sliders behind a
// capturer join in as it leaves. A king takes only where nothing can take back. Pins are ignored.
// A pawn that takes on the last rank becomes a queen.
#include <algorithm>
#include <initializer_list>

#include "board/attacks.h"
#include "board/position.h"

namespace plyscribe::board {
namespace {

constexpr int kValue[7] = {0, 100, 300, 320, 500, 900, 0};
constexpr int value(PieceType t) { return kValue[static_cast<int>(t)]; }

PieceType cheapest(const Position& p, Bitboard attackers) {
  for (PieceType t : {PieceType::kPawn, PieceType::kKnight, PieceType::kBishop, PieceType::kRook,
                      PieceType::kQueen}) {
    if (attackers & p.pieces(t)) return t;
  }
  return PieceType::kKing;
}

}  // namespace

int static_exchange(const Position& p, Move m) {
  if (m.kind() == Move::Kind::kCastling) return 0;
  constexpr int kQueening = value(PieceType::kQueen) - value(PieceType::kPawn);
  const Square to = m.to();
  const bool last_rank = rank_of(to) == 0 || rank_of(to) == 7;
  Color side = ~p.side_to_move();
  Bitboard occupied = p.occupied() ^ bit(m.from());

  int gain[32];
  int last = 0;
  int standing = value(p.type_at(m.from()));  // of the man now on the square
  gain[0] = value(p.type_at(to));
  if (m.kind() == Move::Kind::kEnPassant) {
    gain[0] = value(PieceType::kPawn);
    occupied ^= bit(make_square(file_of(to), rank_of(m.from())));
  } else if (m.kind() == Move::Kind::kPromotion) {
    standing = value(m.promotion());
    gain[0] += standing - value(PieceType::kPawn);
  }
  occupied |= bit(to);

  const Bitboard diagonal = p.pieces(PieceType::kBishop) | p.pieces(PieceType::kQueen);
  const Bitboard straight = p.pieces(PieceType::kRook) | p.pieces(PieceType::kQueen);
  Bitboard attackers = p.attackers_to(to, occupied) & occupied & ~bit(to);
  for (;;) {
    const Bitboard own = attackers & p.pieces(side);
    if (!own) break;
    const PieceType taker = cheapest(p, own);
    if (taker == PieceType::kKing && (attackers & p.pieces(~side))) break;
    ++last;
    gain[last] = standing - gain[last - 1];
    standing = value(taker);
    if (taker == PieceType::kPawn && last_rank) {
      gain[last] += kQueening;
      standing = value(PieceType::kQueen);
    }
    occupied ^= bit(first_square(own & p.pieces(taker)));
    attackers = (attackers | (bishop_attacks(to, occupied) & diagonal) |
                 (rook_attacks(to, occupied) & straight)) &
                occupied & ~bit(to);
    side = ~side;
  }
  for (; last > 0; --last) gain[last - 1] = -std::max(-gain[last - 1], gain[last]);
  return gain[0];
}

}  // namespace plyscribe::board
