// The vocabulary of the rules: colours, pieces, squares, moves.
//
// A Move is 16 bits:   15..14 kind   13..12 promotion   11..6 to   5..0 from
// Squares count a1 = 0, b1 = 1, ... h8 = 63. Castling is the king's own step (e1g1).
// Impossible as a move, and so free as a mark: from == to (kNoMove is all zeros).
#ifndef PLYSCRIBE_BOARD_TYPES_H_
#define PLYSCRIBE_BOARD_TYPES_H_

#include <cstddef>
#include <cstdint>

namespace plyscribe::board {

enum class Color : std::uint8_t { kWhite, kBlack };
constexpr Color operator~(Color c) { return c == Color::kWhite ? Color::kBlack : Color::kWhite; }

enum class PieceType : std::uint8_t { kNone, kPawn, kKnight, kBishop, kRook, kQueen, kKing };

using Square = std::uint8_t;
constexpr Square kNoSquare = 64;
constexpr Square make_square(int file, int rank) { return static_cast<Square>(rank * 8 + file); }
constexpr int file_of(Square s) { return s & 7; }
constexpr int rank_of(Square s) { return s >> 3; }

using Bitboard = std::uint64_t;
constexpr Bitboard bit(Square s) { return Bitboard{1} << s; }

// A move as two bytes. What it means depends on the position: SAN and UCI are in notation.h.
class Move {
 public:
  enum class Kind : std::uint8_t { kNormal, kPromotion, kEnPassant, kCastling };

  constexpr Move() = default;
  constexpr Move(Square from, Square to, Kind kind = Kind::kNormal,
                 PieceType promotion = PieceType::kKnight)
      : bits_(static_cast<std::uint16_t>(
            from | (to << 6) |
            ((static_cast<int>(promotion) - static_cast<int>(PieceType::kKnight)) << 12) |
            (static_cast<int>(kind) << 14))) {}

  constexpr Square from() const { return bits_ & 63; }
  constexpr Square to() const { return (bits_ >> 6) & 63; }
  constexpr Kind kind() const { return static_cast<Kind>(bits_ >> 14); }
  // kNone unless the move promotes.
  constexpr PieceType promotion() const {
    return kind() == Kind::kPromotion ? static_cast<PieceType>(((bits_ >> 12) & 3) + 2)
                                      : PieceType::kNone;
  }
  constexpr std::uint16_t bits() const { return bits_; }
  static constexpr Move from_bits(std::uint16_t bits) {
    Move m;
    m.bits_ = bits;
    return m;
  }
  friend constexpr bool operator==(Move, Move) = default;

 private:
  std::uint16_t bits_ = 0;
};
constexpr Move kNoMove{};

// No position has more than 218 legal moves.
class MoveList {
 public:
  MoveList() {}  // NOLINT: the moves stay uninitialised, clearing 512 bytes a node would cost

  void push(Move m) { moves_[size_++] = m; }
  void clear() { size_ = 0; }
  std::size_t size() const { return size_; }
  bool empty() const { return size_ == 0; }
  Move operator[](std::size_t i) const { return moves_[i]; }
  const Move* begin() const { return moves_; }
  const Move* end() const { return moves_ + size_; }

 private:
  union {
    Move moves_[256];
  };
  std::size_t size_ = 0;
};

}  // namespace plyscribe::board

#endif  // PLYSCRIBE_BOARD_TYPES_H_
