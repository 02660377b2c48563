// The legal moves of one side, handed to a sink set by set. Internal to pipeline/board.
//
//   ListSink sink{moves};  generate<Color::kWhite>(position, sink);   // into a MoveList
//   CountSink count;       generate<Color::kBlack>(position, count);  // only how many
//
// Mechanism. Three facts are found first: the squares the enemy attacks with our king lifted off
// (seen), the men giving check (checkers), our men shielding the king (pinned). Then
//   - the king goes where nothing sees it; with two checkers that is all;
//   - others go to target: anywhere, or with one checker onto it or in between;
//   - a pinned man stays on the line through king and pinner, a pinned knight stays.
// So every move made is legal without trying it. The exception is en passant, which lifts two men
// from one rank: it is tried on the occupancy alone.
#ifndef PLYSCRIBE_BOARD_MOVEGEN_H_
#define PLYSCRIBE_BOARD_MOVEGEN_H_

#include <bit>
#include <initializer_list>

#include "board/attacks.h"
#include "board/position.h"

namespace plyscribe::board {

struct ListSink {
  MoveList& out;

  void moves(Square from, Bitboard targets) {
    while (targets) out.push(Move(from, pop_square(targets)));
  }
  template <int Step>
  void pawn_moves(Bitboard targets) {
    while (targets) {
      const Square to = pop_square(targets);
      out.push(Move(static_cast<Square>(to - Step), to));
    }
  }
  template <int Step>
  void promotions(Bitboard targets) {
    while (targets) {
      const Square to = pop_square(targets);
      const Square from = static_cast<Square>(to - Step);
      for (PieceType t :
           {PieceType::kQueen, PieceType::kRook, PieceType::kBishop, PieceType::kKnight}) {
        out.push(Move(from, to, Move::Kind::kPromotion, t));
      }
    }
  }
  void special(Square from, Square to, Move::Kind kind) { out.push(Move(from, to, kind)); }
};

struct CountSink {
  std::uint64_t count = 0;

  static std::uint64_t size(Bitboard b) { return static_cast<std::uint64_t>(std::popcount(b)); }
  void moves(Square, Bitboard targets) { count += size(targets); }
  template <int Step>
  void pawn_moves(Bitboard targets) {
    count += size(targets);
  }
  template <int Step>
  void promotions(Bitboard targets) {
    count += 4 * size(targets);
  }
  void special(Square, Square, Move::Kind) { ++count; }
};

// Every square that side By attacks, its own men's squares included.
template <Color By>
Bitboard attacked_by(const Position& p, Bitboard occupied) {
  constexpr int kUp = By == Color::kWhite ? 8 : -8;
  const Bitboard pawns = p.pieces(By, PieceType::kPawn);
  Bitboard seen = shift<kUp + 1>(pawns) | shift<kUp - 1>(pawns);
  for (Bitboard b = p.pieces(By, PieceType::kKnight); b;) seen |= knight_attacks(pop_square(b));
  const Bitboard queens = p.pieces(By, PieceType::kQueen);
  for (Bitboard b = p.pieces(By, PieceType::kBishop) | queens; b;) {
    seen |= bishop_attacks(pop_square(b), occupied);
  }
  for (Bitboard b = p.pieces(By, PieceType::kRook) | queens; b;) {
    seen |= rook_attacks(pop_square(b), occupied);
  }
  const Square king = p.king(By);
  return king == kNoSquare ? seen : seen | king_attacks(king);
}

// The pawns of Us that can legally take in passing on the given square.
template <Color Us>
Bitboard en_passant_takers(const Position& p, Square target) {
  constexpr int kUp = Us == Color::kWhite ? 8 : -8;
  const Bitboard near = pawn_attacks(~Us, target) & p.pieces(Us, PieceType::kPawn);
  const Square king = p.king(Us);
  if (!near || king == kNoSquare) return near;
  const Bitboard victim = bit(static_cast<Square>(target - kUp));
  Bitboard takers = 0;
  for (Bitboard b = near; b;) {
    const Bitboard from = bit(pop_square(b));
    const Bitboard occupied = p.occupied() ^ from ^ victim ^ bit(target);
    if (!(p.attackers_to(king, occupied) & p.pieces(~Us) & ~victim)) takers |= from;
  }
  return takers;
}

namespace movegen_detail {

template <Color Us, class Sink>
void pawns(const Position& p, Square king, Bitboard pinned, Bitboard target, Sink& sink) {
  constexpr bool kWhite = Us == Color::kWhite;
  constexpr int kUp = kWhite ? 8 : -8, kUpEast = kUp + 1, kUpWest = kUp - 1;
  constexpr Bitboard kLast = rank_mask(kWhite ? 7 : 0), kThird = rank_mask(kWhite ? 2 : 5);
  // Up-east is the rising diagonal for White and the falling one for Black.
  const Bitboard east_line = kWhite ? rising_diagonal(king) : falling_diagonal(king);
  const Bitboard west_line = kWhite ? falling_diagonal(king) : rising_diagonal(king);

  const Bitboard pawns = p.pieces(Us, PieceType::kPawn);
  const Bitboard empty = ~p.occupied(), prey = p.pieces(~Us) & target;
  const Bitboard free = pawns & ~pinned, bound = pawns & pinned;

  const Bitboard step = shift<kUp>(free | (bound & file_mask(file_of(king)))) & empty;
  const Bitboard leap = shift<kUp>(step & kThird) & empty & target;
  const Bitboard single = step & target;
  const Bitboard east = shift<kUpEast>(free | (bound & east_line)) & prey;
  const Bitboard west = shift<kUpWest>(free | (bound & west_line)) & prey;

  sink.template pawn_moves<kUp>(single & ~kLast);
  sink.template pawn_moves<2 * kUp>(leap);
  sink.template pawn_moves<kUpEast>(east & ~kLast);
  sink.template pawn_moves<kUpWest>(west & ~kLast);
  if ((single | east | west) & kLast) {
    sink.template promotions<kUp>(single & kLast);
    sink.template promotions<kUpEast>(east & kLast);
    sink.template promotions<kUpWest>(west & kLast);
  }
  if (p.en_passant() != kNoSquare) {
    for (Bitboard b = en_passant_takers<Us>(p, p.en_passant()); b;) {
      sink.special(pop_square(b), p.en_passant(), Move::Kind::kEnPassant);
    }
  }
}

template <Color Us, class Sink>
void castling(const Position& p, Bitboard occupied, Bitboard seen, Sink& sink) {
  constexpr bool kWhite = Us == Color::kWhite;
  constexpr int kShift = kWhite ? 0 : 56;
  constexpr Square kE = static_cast<Square>(4 + kShift);
  constexpr Bitboard kF = bit(5), kG = bit(6), kB = bit(1), kC = bit(2), kD = bit(3);
  if ((p.castling() & (kWhite ? Position::kWhiteShort : Position::kBlackShort)) &&
      !((occupied | seen) & ((kF | kG) << kShift))) {
    sink.special(kE, static_cast<Square>(kE + 2), Move::Kind::kCastling);
  }
  if ((p.castling() & (kWhite ? Position::kWhiteLong : Position::kBlackLong)) &&
      !(occupied & ((kB | kC | kD) << kShift)) && !(seen & ((kC | kD) << kShift))) {
    sink.special(kE, static_cast<Square>(kE - 2), Move::Kind::kCastling);
  }
}

}  // namespace movegen_detail

// Without a king of Us on the board there are no legal moves.
template <Color Us, class Sink>
void generate(const Position& p, Sink& sink) {
  constexpr Color kThem = ~Us;
  constexpr std::uint8_t kRights = Us == Color::kWhite
                                       ? Position::kWhiteShort | Position::kWhiteLong
                                       : Position::kBlackShort | Position::kBlackLong;
  const Square king = p.king(Us);
  if (king == kNoSquare) return;
  const Bitboard own = p.pieces(Us), occupied = p.occupied();

  const Bitboard seen = attacked_by<kThem>(p, occupied ^ bit(king));
  sink.moves(king, king_attacks(king) & ~own & ~seen);

  const Bitboard enemy_queens = p.pieces(kThem, PieceType::kQueen);
  Bitboard checkers = (pawn_attacks(Us, king) & p.pieces(kThem, PieceType::kPawn)) |
                      (knight_attacks(king) & p.pieces(kThem, PieceType::kKnight));
  Bitboard pinned = 0;
  Bitboard snipers =
      (bishop_rays(king) & (p.pieces(kThem, PieceType::kBishop) | enemy_queens)) |
      (rook_rays(king) & (p.pieces(kThem, PieceType::kRook) | enemy_queens));
  while (snipers) {
    const Square sniper = pop_square(snipers);
    const Bitboard screen = between(king, sniper) & occupied;
    if (!screen) {
      checkers |= bit(sniper);
    } else if (!more_than_one(screen)) {
      pinned |= screen & own;
    }
  }
  if (more_than_one(checkers)) return;

  Bitboard target = ~own;
  if (checkers) {
    target = between(king, first_square(checkers)) | checkers;
  } else if (p.castling() & kRights) {
    movegen_detail::castling<Us>(p, occupied, seen, sink);
  }

  movegen_detail::pawns<Us>(p, king, pinned, target, sink);

  for (Bitboard b = p.pieces(Us, PieceType::kKnight) & ~pinned; b;) {
    const Square from = pop_square(b);
    sink.moves(from, knight_attacks(from) & target);
  }
  const Bitboard queens = p.pieces(Us, PieceType::kQueen);
  const Bitboard diagonal = p.pieces(Us, PieceType::kBishop) | queens;
  const Bitboard straight = p.pieces(Us, PieceType::kRook) | queens;
  for (Bitboard b = diagonal & ~pinned; b;) {
    const Square from = pop_square(b);
    sink.moves(from, bishop_attacks(from, occupied) & target);
  }
  for (Bitboard b = straight & ~pinned; b;) {
    const Square from = pop_square(b);
    sink.moves(from, rook_attacks(from, occupied) & target);
  }
  if (pinned) {
    for (Bitboard b = diagonal & pinned; b;) {
      const Square from = pop_square(b);
      sink.moves(from, bishop_attacks(from, occupied) & target & line(king, from));
    }
    for (Bitboard b = straight & pinned; b;) {
      const Square from = pop_square(b);
      sink.moves(from, rook_attacks(from, occupied) & target & line(king, from));
    }
  }
}

}  // namespace plyscribe::board

#endif  // PLYSCRIBE_BOARD_MOVEGEN_H_
