#include "board/position.h"

#include "board/attacks.h"
#include "board/make.h"
#include "board/movegen.h"
#include "board/zobrist.h"

namespace plyscribe::board {

Position::Position() = default;

Position Position::initial() {
  constexpr PieceType kFirstRank[8] = {PieceType::kRook,   PieceType::kKnight, PieceType::kBishop,
                                       PieceType::kQueen,  PieceType::kKing,   PieceType::kBishop,
                                       PieceType::kKnight, PieceType::kRook};
  Position p;
  for (int file = 0; file < 8; ++file) {
    p.put(Color::kWhite, kFirstRank[file], make_square(file, 0));
    p.put(Color::kWhite, PieceType::kPawn, make_square(file, 1));
    p.put(Color::kBlack, PieceType::kPawn, make_square(file, 6));
    p.put(Color::kBlack, kFirstRank[file], make_square(file, 7));
  }
  p.set_castling(kWhiteShort | kWhiteLong | kBlackShort | kBlackLong);
  return p;
}

Bitboard Position::attackers_to(Square s, Bitboard occupied) const {
  const Bitboard queens = pieces(PieceType::kQueen);
  return (pawn_attacks(Color::kBlack, s) & pieces(Color::kWhite, PieceType::kPawn)) |
         (pawn_attacks(Color::kWhite, s) & pieces(Color::kBlack, PieceType::kPawn)) |
         (knight_attacks(s) & pieces(PieceType::kKnight)) |
         (king_attacks(s) & pieces(PieceType::kKing)) |
         (bishop_attacks(s, occupied) & (pieces(PieceType::kBishop) | queens)) |
         (rook_attacks(s, occupied) & (pieces(PieceType::kRook) | queens));
}

Bitboard Position::checkers() const {
  const Square k = king(side_);
  return k == kNoSquare ? 0 : attackers_to(k, occupied()) & pieces(~side_);
}

void Position::legal_moves(MoveList& out) const {
  out.clear();
  ListSink sink{out};
  if (side_ == Color::kWhite) {
    generate<Color::kWhite>(*this, sink);
  } else {
    generate<Color::kBlack>(*this, sink);
  }
}

bool Position::is_legal(Move m) const {
  if (!(pieces(side_) & bit(m.from()))) return false;
  MoveList moves;
  legal_moves(moves);
  for (Move legal : moves) {
    if (legal == m) return true;
  }
  return false;
}

bool Position::gives_check(Move m) const { return after(m).in_check(); }

bool Position::is_checkmate() const {
  if (!in_check()) return false;
  MoveList moves;
  legal_moves(moves);
  return moves.empty();
}

bool Position::is_stalemate() const {
  if (king(side_) == kNoSquare || in_check()) return false;
  MoveList moves;
  legal_moves(moves);
  return moves.empty();
}

Position Position::after(Move m) const {
  Position next = *this;
  if (side_ == Color::kWhite) {
    next.play<Color::kWhite>(m);
  } else {
    next.play<Color::kBlack>(m);
  }
  return next;
}

void Position::make(Move m, Undo& undo) {
  undo.captured = m.kind() == Move::Kind::kEnPassant ? PieceType::kPawn : board_[m.to()];
  undo.castling = castling_;
  undo.en_passant = en_passant_;
  undo.halfmove_clock = halfmove_clock_;
  undo.key = key_;
  if (side_ == Color::kWhite) {
    play<Color::kWhite>(m);
  } else {
    play<Color::kBlack>(m);
  }
}

void Position::unmake(Move m, const Undo& undo) {
  const Color us = ~side_;
  const Square from = m.from(), to = m.to();
  if (m.kind() == Move::Kind::kPromotion) {
    lift(us, board_[to], to);
    by_color_[static_cast<int>(us)] |= bit(from);
    by_type_[static_cast<int>(PieceType::kPawn)] |= bit(from);
    board_[from] = PieceType::kPawn;
  } else {
    move_piece(us, board_[to], to, from);
  }
  if (undo.captured != PieceType::kNone) {
    const int up = us == Color::kWhite ? 8 : -8;
    const Square s = m.kind() == Move::Kind::kEnPassant ? static_cast<Square>(to - up) : to;
    by_color_[static_cast<int>(side_)] |= bit(s);
    by_type_[static_cast<int>(undo.captured)] |= bit(s);
    board_[s] = undo.captured;
  }
  if (m.kind() == Move::Kind::kCastling) {
    const RookStep rook = castling_rook(to);
    move_piece(us, PieceType::kRook, rook.to, rook.from);
  }
  side_ = us;
  fullmove_ = static_cast<std::uint16_t>(fullmove_ - static_cast<int>(us));
  castling_ = undo.castling;
  en_passant_ = undo.en_passant;
  halfmove_clock_ = undo.halfmove_clock;
  key_ = undo.key;
}

void Position::put(Color c, PieceType t, Square s) {
  remove(s);
  if (t == PieceType::kNone) return;
  by_color_[static_cast<int>(c)] |= bit(s);
  by_type_[static_cast<int>(t)] |= bit(s);
  board_[s] = t;
  key_ ^= kZobrist.piece[static_cast<int>(c)][static_cast<int>(t)][s];
}

void Position::remove(Square s) {
  const PieceType t = board_[s];
  if (t == PieceType::kNone) return;
  const Color c = color_at(s);
  lift(c, t, s);
  key_ ^= kZobrist.piece[static_cast<int>(c)][static_cast<int>(t)][s];
}

void Position::set_side(Color c) {
  if (c == side_) return;
  set_en_passant(kNoSquare);
  side_ = c;
  key_ ^= kZobrist.black_to_move;
}

void Position::set_castling(std::uint8_t rights) {
  key_ ^= kZobrist.castling[castling_];
  castling_ = rights & 15;
  key_ ^= kZobrist.castling[castling_];
}

void Position::set_en_passant(Square s) {
  if (en_passant_ != kNoSquare) key_ ^= kZobrist.en_passant_file[file_of(en_passant_)];
  en_passant_ = kNoSquare;
  if (s == kNoSquare) return;

  const bool white = side_ == Color::kWhite;
  if (rank_of(s) != (white ? 5 : 2)) return;
  const Square victim = static_cast<Square>(s + (white ? -8 : 8));
  const Square origin = static_cast<Square>(s + (white ? 8 : -8));
  if (!(pieces(~side_, PieceType::kPawn) & bit(victim))) return;
  if (occupied() & (bit(s) | bit(origin))) return;
  if (white ? en_passant_takers<Color::kWhite>(*this, s)
            : en_passant_takers<Color::kBlack>(*this, s)) {
    en_passant_ = s;
    key_ ^= kZobrist.en_passant_file[file_of(s)];
  }
}

void Position::set_clocks(int halfmove, int fullmove) {
  halfmove_clock_ = static_cast<std::uint16_t>(halfmove);
  fullmove_ = static_cast<std::uint16_t>(fullmove);
}

}  // namespace plyscribe::board
