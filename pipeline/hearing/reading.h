// A reading: some words, and at what cost they name each move.
//
//   "bishop takes d5": first..last its tokens, piece[bishop] = 0, to[d5] = 0, to[b5] = 1.9 ...
//   match(reading, position, move) -> cost in nats, and which parts had to be heard differently.
//
// A reading knows nothing of any position. It is made once per lesson and asked many times.
// Every slot is a vector of costs over its values, so that near misses stay open until the search.
#ifndef PLYSCRIBE_HEARING_READING_H_
#define PLYSCRIBE_HEARING_READING_H_

#include <array>
#include <cstdint>
#include <limits>
#include <tuple>

#include "board/position.h"

namespace plyscribe::hearing {

constexpr float kNever = 1e9F;  // cost of what a reading rules out

// What kind of thing the words say; one bit each, so that a search can learn a weight for each.
enum Mend : std::uint16_t {
  kMendFile = 1 << 0,       // another file letter than heard
  kMendRank = 1 << 1,       // another rank digit than heard
  kMendPiece = 1 << 2,      // another piece than heard
  kPieceUnsaid = 1 << 3,    // no piece was named and it is not a pawn
  kCaptureUnsaid = 1 << 4,  // a capture, not said to be one
  kCaptureFalse = 1 << 5,   // said to be a capture, is none
  kMendOrigin = 1 << 6,     // origin file or rank heard differently
  kCheckFalse = 1 << 7,     // said to be check, is none
  kCheckUnsaid = 1 << 8,    // a check nobody announced
  kTargetUnsaid = 1 << 9,   // no target square was said
  kByEar = 1 << 10,         // read from sounds, not from spelling
};

struct Match {
  float cost = kNever;
  std::uint16_t mends = 0;
  bool ok() const { return cost < kNever / 2; }
};

struct Reading {
  std::uint32_t first = 0, last = 0;  // tokens [first, last) of the Lattice
  std::uint16_t pattern = 0;          // index into the grammar's patterns
  bool written = false;               // a written move or square ("Nf3", "e4")
  bool by_ear = false;                // some unit was read from its sound
  bool strong = false;                // so likely a move or square that passing over it needs a reason
  std::uint8_t breaks = 0;            // punctuation marks inside
  float base = 0;                     // nats: words, fillers, sounds that belong to no slot
  float background = 0;               // nats: cost of the same words as ordinary talk

  bool has_piece = false, has_to = false, has_from_file = false, has_from_rank = false;
  bool takes = false, check = false, mate = false, en_passant = false;
  bool has_victim = false;
  bool twice = false;  // two moves in one breath: both sides castle, two men of a kind come off
  std::uint8_t castle = 0;  // 0 no; 1 either way; 2 short; 3 long
  board::PieceType promotion = board::PieceType::kNone;

  std::array<float, 7> piece{};      // by PieceType
  std::array<float, 64> to{};        // by Square
  std::array<float, 8> from_file{};
  std::array<float, 8> from_rank{};
  std::array<float, 7> victim{};

  float best = 0;  // lowest cost that any move could have
  // The cheapest value of each slot, kept so that match() need not look for it: -1 not yet known.
  std::int8_t heard_piece = -1, heard_to = -1, heard_file = -1, heard_rank = -1;
};

// Fills heard_piece ... heard_rank once the slots are final.
void settle(Reading& r);

// What match() looks at: readings that are equal in it name the same moves at the same costs,
// wherever they are said.
inline auto named_by(const Reading& r) {
  return std::tie(r.base, r.by_ear, r.has_piece, r.has_to, r.has_from_file, r.has_from_rank, r.takes,
                  r.check, r.mate, r.en_passant, r.has_victim, r.castle, r.promotion, r.piece, r.to,
                  r.from_file, r.from_rank, r.victim);
}

// kNever unless the move fits the reading's shape. `gives_check` is asked for by the caller's cache.
Match match(const Reading& r, const board::Position& p, board::Move m, bool gives_check);

}  // namespace plyscribe::hearing

#endif  // PLYSCRIBE_HEARING_READING_H_
