// A chess position: who stands where, who is to move, what may still be castled or taken in passing.
//
//   Position p = Position::initial();
//   MoveList moves; p.legal_moves(moves);
//   Position q = p.after(moves[0]);          // copy-make: positions are cheap values
//
// legal_moves gives exactly the legal moves, in a fixed order. key() is a Zobrist key of placement,
// side, castling rights and an en-passant square that a pawn can really use, so that positions
// which are the same by the rules have the same key.
#ifndef PLYSCRIBE_BOARD_POSITION_H_
#define PLYSCRIBE_BOARD_POSITION_H_

#include <bit>

#include "board/types.h"

namespace plyscribe::board {

// What unmake needs to put back.
struct Undo {
  PieceType captured = PieceType::kNone;
  std::uint8_t castling = 0;
  Square en_passant = kNoSquare;
  std::uint16_t halfmove_clock = 0;
  std::uint64_t key = 0;
};

// A position, as a cheap value. Squares, colours and moves are those of types.h.
class Position {
 public:
  static constexpr std::uint8_t kWhiteShort = 1, kWhiteLong = 2, kBlackShort = 4, kBlackLong = 8;

  Position();  // empty board; use initial() or parse_fen
  static Position initial();

  Color side_to_move() const { return side_; }
  PieceType type_at(Square s) const { return board_[s]; }
  Color color_at(Square s) const {  // only where type_at(s) != kNone
    return (by_color_[0] & bit(s)) ? Color::kWhite : Color::kBlack;
  }
  Bitboard pieces(Color c) const { return by_color_[static_cast<int>(c)]; }
  Bitboard pieces(PieceType t) const { return by_type_[static_cast<int>(t)]; }
  Bitboard pieces(Color c, PieceType t) const { return pieces(c) & pieces(t); }
  Bitboard occupied() const { return by_color_[0] | by_color_[1]; }
  Square king(Color c) const {  // kNoSquare if there is none
    return static_cast<Square>(std::countr_zero(pieces(c, PieceType::kKing)));
  }
  std::uint8_t castling() const { return castling_; }
  Square en_passant() const { return en_passant_; }  // kNoSquare unless a pawn can take there
  int halfmove_clock() const { return halfmove_clock_; }
  int fullmove_number() const { return fullmove_; }
  std::uint64_t key() const { return key_; }

  // Pieces of both colours that attack s, sliders seen through the given occupancy.
  Bitboard attackers_to(Square s, Bitboard occupied) const;
  Bitboard checkers() const;
  bool in_check() const { return checkers() != 0; }

  void legal_moves(MoveList& out) const;
  bool is_legal(Move m) const;
  bool is_capture(Move m) const {
    return board_[m.to()] != PieceType::kNone || m.kind() == Move::Kind::kEnPassant;
  }
  bool gives_check(Move m) const;
  bool is_checkmate() const;
  bool is_stalemate() const;

  void make(Move m, Undo& undo);  // m must be legal
  void unmake(Move m, const Undo& undo);
  Position after(Move m) const;

  // For readers and set-ups. set_* keep bitboards and key in step.
  void put(Color c, PieceType t, Square s);
  void remove(Square s);
  void set_side(Color c);         // forgets the en-passant square if the side changes
  void set_castling(std::uint8_t rights);  // king and rook must stand at home for each right
  void set_en_passant(Square s);  // kept only if a pawn can legally take there
  void set_clocks(int halfmove, int fullmove);

 private:
  // Plays m for the side Us (make.h); make, after and perft share it.
  template <Color Us>
  void play(Move m);
  void move_piece(Color c, PieceType t, Square from, Square to);
  void lift(Color c, PieceType t, Square s);
  friend struct Perft;

  Bitboard by_color_[2] = {};
  Bitboard by_type_[7] = {};
  PieceType board_[64] = {};
  Color side_ = Color::kWhite;
  std::uint8_t castling_ = 0;
  Square en_passant_ = kNoSquare;
  std::uint16_t halfmove_clock_ = 0;
  std::uint16_t fullmove_ = 1;
  std::uint64_t key_ = 0;
};

std::uint64_t perft(const Position& p, int depth);

// Static exchange evaluation: material won by the side to move, in centipawns
// (pawn 100, knight 300, bishop 320, rook 500, queen 900), when m is played and both sides go on
// capturing on its target square with their cheapest piece for as long as it pays.
int static_exchange(const Position& p, Move m);

}  // namespace plyscribe::board

#endif  // PLYSCRIBE_BOARD_POSITION_H_
