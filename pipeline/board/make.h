// Playing a move on a Position. Internal to pipeline/board: include where Position::play is used.
#ifndef PLYSCRIBE_BOARD_MAKE_H_
#define PLYSCRIBE_BOARD_MAKE_H_

#include "board/attacks.h"
#include "board/movegen.h"
#include "board/position.h"
#include "board/zobrist.h"

namespace plyscribe::board {

// The rights that end when a move starts or ends on a square.
struct LostRights {
  std::uint8_t at[64] = {};
  constexpr LostRights() {
    at[0] = Position::kWhiteLong;
    at[7] = Position::kWhiteShort;
    at[4] = Position::kWhiteLong | Position::kWhiteShort;
    at[56] = Position::kBlackLong;
    at[63] = Position::kBlackShort;
    at[60] = Position::kBlackLong | Position::kBlackShort;
  }
};
inline constexpr LostRights kLostRights;

struct RookStep {
  Square from, to;
};
constexpr RookStep castling_rook(Square king_to) {
  const bool is_short = file_of(king_to) == 6;
  return is_short ? RookStep{static_cast<Square>(king_to + 1), static_cast<Square>(king_to - 1)}
                  : RookStep{static_cast<Square>(king_to - 2), static_cast<Square>(king_to + 1)};
}

// Bitboards and board only; the key is the caller's.
inline void Position::move_piece(Color c, PieceType t, Square from, Square to) {
  const Bitboard both = bit(from) | bit(to);
  by_color_[static_cast<int>(c)] ^= both;
  by_type_[static_cast<int>(t)] ^= both;
  board_[from] = PieceType::kNone;
  board_[to] = t;
}

inline void Position::lift(Color c, PieceType t, Square s) {
  by_color_[static_cast<int>(c)] ^= bit(s);
  by_type_[static_cast<int>(t)] ^= bit(s);
  board_[s] = PieceType::kNone;
}

template <Color Us>
void Position::play(Move m) {
  constexpr Color kThem = ~Us;
  constexpr int kUs = static_cast<int>(Us), kOther = static_cast<int>(kThem);
  constexpr int kUp = Us == Color::kWhite ? 8 : -8;
  const Square from = m.from(), to = m.to();
  const PieceType type = board_[from], captured = board_[to];
  const auto& numbers = kZobrist.piece[kUs][static_cast<int>(type)];
  std::uint64_t key = key_ ^ kZobrist.black_to_move ^ numbers[from] ^ numbers[to];

  if (en_passant_ != kNoSquare) {
    key ^= kZobrist.en_passant_file[file_of(en_passant_)];
    en_passant_ = kNoSquare;
  }
  ++halfmove_clock_;
  if (captured != PieceType::kNone) {
    lift(kThem, captured, to);
    key ^= kZobrist.piece[kOther][static_cast<int>(captured)][to];
    halfmove_clock_ = 0;
  }
  move_piece(Us, type, from, to);

  const std::uint8_t lost =
      static_cast<std::uint8_t>(castling_ & (kLostRights.at[from] | kLostRights.at[to]));
  if (lost) {
    key ^= kZobrist.castling[castling_];
    castling_ = static_cast<std::uint8_t>(castling_ ^ lost);
    key ^= kZobrist.castling[castling_];
  }
  side_ = kThem;
  fullmove_ = static_cast<std::uint16_t>(fullmove_ + kUs);

  if (type == PieceType::kPawn) {
    halfmove_clock_ = 0;
    if (m.kind() == Move::Kind::kPromotion) {
      const int promoted = static_cast<int>(m.promotion());
      by_type_[static_cast<int>(PieceType::kPawn)] ^= bit(to);
      by_type_[promoted] ^= bit(to);
      board_[to] = m.promotion();
      key ^= numbers[to] ^ kZobrist.piece[kUs][promoted][to];
    } else if (m.kind() == Move::Kind::kEnPassant) {
      const Square victim = static_cast<Square>(to - kUp);
      lift(kThem, PieceType::kPawn, victim);
      key ^= kZobrist.piece[kOther][static_cast<int>(PieceType::kPawn)][victim];
    } else if (to - from == 2 * kUp) {
      const Square passed = static_cast<Square>(to - kUp);
      if (en_passant_takers<kThem>(*this, passed)) {
        en_passant_ = passed;
        key ^= kZobrist.en_passant_file[file_of(passed)];
      }
    }
  } else if (m.kind() == Move::Kind::kCastling) {
    const RookStep rook = castling_rook(to);
    move_piece(Us, PieceType::kRook, rook.from, rook.to);
    const auto& rook_numbers = kZobrist.piece[kUs][static_cast<int>(PieceType::kRook)];
    key ^= rook_numbers[rook.from] ^ rook_numbers[rook.to];
  }
  key_ = key;
}

}  // namespace plyscribe::board

#endif  // PLYSCRIBE_BOARD_MAKE_H_
