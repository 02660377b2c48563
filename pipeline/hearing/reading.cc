#include "hearing/reading.h"

#include <cstddef>
#include <cstdlib>

namespace plyscribe::hearing {

using board::Move;
using board::PieceType;

namespace {

template <std::size_t N>
std::size_t best_index(const std::array<float, N>& costs) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < N; ++i) {
    if (costs[i] < costs[best]) best = i;
  }
  return best;
}

template <std::size_t N>
std::size_t heard_or_best(std::int8_t heard, const std::array<float, N>& costs) {
  return heard >= 0 ? static_cast<std::size_t>(heard) : best_index(costs);
}

}  // namespace

void settle(Reading& r) {
  r.heard_piece = static_cast<std::int8_t>(best_index(r.piece));
  r.heard_to = static_cast<std::int8_t>(best_index(r.to));
  r.heard_file = static_cast<std::int8_t>(best_index(r.from_file));
  r.heard_rank = static_cast<std::int8_t>(best_index(r.from_rank));
}

Match match(const Reading& r, const board::Position& p, Move m, bool gives_check) {
  Match out;
  float cost = r.base;
  std::uint16_t mends = r.by_ear ? kByEar : 0;
  const PieceType mover = p.type_at(m.from());

  if (r.castle != 0 || m.kind() == Move::Kind::kCastling) {
    if (r.castle == 0 || m.kind() != Move::Kind::kCastling) return out;
    const bool is_short = board::file_of(m.to()) == 6;
    if ((r.castle == 2 && !is_short) || (r.castle == 3 && is_short)) return out;
    if (r.castle == 1 && !is_short) cost += 1.0F;  // "castles" alone is mostly short
    out.cost = cost;
    out.mends = mends;
    return out;
  }

  if (r.has_piece) {
    const auto index = static_cast<std::size_t>(mover);
    if (r.piece[index] >= kNever / 2) return out;
    cost += r.piece[index];
    if (index != heard_or_best(r.heard_piece, r.piece)) mends |= kMendPiece;
  } else if (mover != PieceType::kPawn && (r.has_to || r.has_from_file)) {
    mends |= kPieceUnsaid;
  }

  if (r.has_to) {
    if (r.to[m.to()] >= kNever / 2) return out;
    cost += r.to[m.to()];
    const std::size_t heard = heard_or_best(r.heard_to, r.to);
    if ((heard & 7) != static_cast<std::size_t>(board::file_of(m.to()))) mends |= kMendFile;
    if ((heard >> 3) != static_cast<std::size_t>(board::rank_of(m.to()))) mends |= kMendRank;
  } else {
    mends |= kTargetUnsaid;
  }
  if (r.has_from_file) {
    const auto f = static_cast<std::size_t>(board::file_of(m.from()));
    if (r.from_file[f] >= kNever / 2) return out;
    cost += r.from_file[f];
    if (f != heard_or_best(r.heard_file, r.from_file)) mends |= kMendOrigin;
  }
  if (r.has_from_rank) {
    const auto rank = static_cast<std::size_t>(board::rank_of(m.from()));
    if (r.from_rank[rank] >= kNever / 2) return out;
    cost += r.from_rank[rank];
    if (rank != heard_or_best(r.heard_rank, r.from_rank)) mends |= kMendOrigin;
  }

  // "Check.": some move that checks.
  if (!r.has_piece && !r.has_to && !r.takes && !gives_check) return out;

  const bool capture = p.is_capture(m);
  if (capture && !r.takes) mends |= kCaptureUnsaid;
  if (!capture && r.takes) {
    if (!r.has_to) return out;  // a capture with no square must capture
    mends |= kCaptureFalse;
  }
  if (r.has_victim) {
    if (!capture) return out;
    const auto victim = static_cast<std::size_t>(
        m.kind() == Move::Kind::kEnPassant ? PieceType::kPawn : p.type_at(m.to()));
    if (r.victim[victim] >= kNever / 2) return out;
    cost += r.victim[victim];
  }
  if (r.en_passant && m.kind() != Move::Kind::kEnPassant) return out;

  if (m.kind() == Move::Kind::kPromotion) {
    const PieceType wanted = r.promotion == PieceType::kNone ? PieceType::kQueen : r.promotion;
    if (m.promotion() != wanted) return out;
  } else if (r.promotion != PieceType::kNone) {
    return out;
  }

  if (gives_check && !(r.check || r.mate)) mends |= kCheckUnsaid;
  if (!gives_check && (r.check || r.mate)) mends |= kCheckFalse;

  out.cost = cost;
  out.mends = mends;
  return out;
}

}  // namespace plyscribe::hearing
