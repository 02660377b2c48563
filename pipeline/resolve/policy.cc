#include "resolve/policy.h"

#include <algorithm>
#include <cmath>

#include "board/attacks.h"
#include "lexicon/book.h"

namespace plyscribe::resolve {
namespace {

using board::Bitboard;
using board::Color;
using board::Move;
using board::PieceType;
using board::Position;
using board::Square;

enum Feature : std::uint32_t {
  kCaptureWinsPiece, kCaptureWinsPawn, kCaptureEven, kCaptureLoses, kCaptureLosesPiece,
  kRecapture, kRecaptureLoses, kCheck, kCheckLoses, kMate, kHangsPawn, kHangsPiece, kHangsRook,
  kSavesPiece, kIgnoresThreat, kCastles, kQuietPawn, kQuietKnight, kQuietBishop, kQuietRook,
  kQuietQueen, kQuietKing, kDevelops, kCentralPawn, kDoubleStep, kKingLosesCastling, kRetreats,
  kAttacksBigger, kPromotes, kAttackedMoves, kIntoPawn, kKnightToRim, kCenterPawn, kCenterKnight,
  kCenterBishop, kCenterRook, kCenterQueen, kCenterKing, kEndgameKing, kQuietLoses, kUnderPromotes,
  kWingPawn, kRookOpenFile, kBookLog, kBookMove, kBookAbsent, kPawnCaptureCentre, kAnswersCheckKing,
  kAttacksLoose, kFeatureCount,
};

int value_of(PieceType t) {
  constexpr int values[] = {0, 100, 300, 320, 500, 900, 20000};
  return values[static_cast<int>(t)];
}

// What the side to move could win at once by its best capture, in centipawns.
int best_capture(const Position& p, Square* where) {
  board::MoveList moves;
  p.legal_moves(moves);
  int best = 0;
  for (Move m : moves) {
    if (!p.is_capture(m)) continue;
    const int victim = m.kind() == Move::Kind::kEnPassant ? 100 : value_of(p.type_at(m.to()));
    if (victim <= best) continue;
    const int gain = board::static_exchange(p, m);
    if (gain > best) {
      best = gain;
      *where = m.to();
    }
  }
  return best;
}

int centrality(Square s) {  // 0 on the rim, 3 in the middle
  const int f = board::file_of(s);
  const int r = board::rank_of(s);
  return std::min(std::min(f, 7 - f), std::min(r, 7 - r));
}

}  // namespace

const std::vector<std::string>& policy_feature_names() {
  static const std::vector<std::string> names = {
      "capture-wins-piece", "capture-wins-pawn", "capture-even", "capture-loses",
      "capture-loses-piece", "recapture", "recapture-loses", "check", "check-loses", "mate",
      "hangs-pawn", "hangs-piece", "hangs-rook", "saves-piece", "ignores-threat", "castles",
      "quiet-pawn", "quiet-knight", "quiet-bishop", "quiet-rook", "quiet-queen", "quiet-king",
      "develops", "central-pawn", "double-step", "king-loses-castling", "retreats",
      "attacks-bigger", "promotes", "attacked-moves", "into-pawn", "knight-to-rim", "center-pawn",
      "center-knight", "center-bishop", "center-rook", "center-queen", "center-king",
      "endgame-king", "quiet-loses", "underpromotes", "wing-pawn", "rook-open-file", "book-log",
      "book-move", "book-absent", "pawn-capture-centre", "answers-check-king", "attacks-loose"};
  return names;
}

namespace {

// What a man of one side attacks from a square.
Bitboard attacks_of(PieceType t, Color c, Square from, Bitboard occupied) {
  switch (t) {
    case PieceType::kPawn:
      return board::pawn_attacks(c, from);
    case PieceType::kKnight:
      return board::knight_attacks(from);
    case PieceType::kBishop:
      return board::bishop_attacks(from, occupied);
    case PieceType::kRook:
      return board::rook_attacks(from, occupied);
    case PieceType::kQueen:
      return board::bishop_attacks(from, occupied) | board::rook_attacks(from, occupied);
    case PieceType::kKing:
      return board::king_attacks(from);
    case PieceType::kNone:
      break;
  }
  return 0;
}

// Calls take(i, feature, value) for every feature of the i-th move.
template <class Take>
void each_feature(const PolicyInput& in, const board::MoveList& moves, Take take) {
  static_assert(kFeatureCount == 49);
  const Position& p = *in.position;
  const Color us = p.side_to_move();
  const Color them = ~us;
  const Bitboard occupied = p.occupied();
  const bool in_check = p.in_check();

  // What hangs if we do nothing (only meaningful out of check).
  int threat = 0;
  Square threatened = board::kNoSquare;
  if (!in_check) {
    Position passed = p;
    passed.set_side(them);
    passed.set_en_passant(board::kNoSquare);
    threat = best_capture(passed, &threatened);
  }
  const auto book = lexicon::book_moves(p);
  double book_total = 0;
  for (const auto& b : book) book_total += b.count;
  const int men = __builtin_popcountll(occupied);
  const bool endgame = men <= 12;

  for (std::size_t i = 0; i < moves.size(); ++i) {
    const Move m = moves[i];
    const auto add = [&](Feature id, float v = 1.0F) { take(i, id, v); };
    const PieceType mover = p.type_at(m.from());
    const bool capture = p.is_capture(m);
    const int see = board::static_exchange(p, m);
    const Position next = p.after(m);
    const bool check = next.in_check();
    if (check && next.is_checkmate()) {
      add(kMate);
      continue;
    }
    if (capture) {
      add(see >= 250 ? kCaptureWinsPiece
          : see >= 50 ? kCaptureWinsPawn
          : see >= -60 ? kCaptureEven
          : see >= -250 ? kCaptureLoses
                        : kCaptureLosesPiece);
      if (in.last_captured && m.to() == in.last.to()) add(see >= -60 ? kRecapture : kRecaptureLoses);
      if (mover == PieceType::kPawn && centrality(m.to()) > centrality(m.from())) {
        add(kPawnCaptureCentre);
      }
    } else if (m.kind() == Move::Kind::kCastling) {
      add(kCastles);
    } else {
      add(static_cast<Feature>(kQuietPawn + static_cast<std::uint32_t>(mover) - 1));
      if (see < -60) add(kQuietLoses);
      const int forward = us == Color::kWhite ? 1 : -1;
      if (mover != PieceType::kPawn && mover != PieceType::kKing &&
          (board::rank_of(m.to()) - board::rank_of(m.from())) * forward < 0) {
        add(kRetreats);
      }
      const int home = us == Color::kWhite ? 0 : 7;
      if ((mover == PieceType::kKnight || mover == PieceType::kBishop) &&
          board::rank_of(m.from()) == home && board::rank_of(m.to()) != home) {
        add(kDevelops);
      }
      if (mover == PieceType::kPawn) {
        if (std::abs(board::rank_of(m.to()) - board::rank_of(m.from())) == 2) add(kDoubleStep);
        const int file = board::file_of(m.to());
        if (file >= 2 && file <= 4) add(kCentralPawn);
        if (file == 0 || file == 7) add(kWingPawn);
      }
      if (mover == PieceType::kKnight && centrality(m.to()) == 0) add(kKnightToRim);
      if (mover == PieceType::kRook) {
        const Bitboard file_mask = 0x0101010101010101ULL << board::file_of(m.to());
        if ((p.pieces(us, PieceType::kPawn) & file_mask) == 0) add(kRookOpenFile);
      }
      if (mover == PieceType::kKing) {
        const std::uint8_t rights = us == Color::kWhite ? 3 : 12;
        if ((p.castling() & rights) != 0) add(kKingLosesCastling);
      }
    }
    if (mover == PieceType::kKing && endgame) add(kEndgameKing);
    if (in_check && mover == PieceType::kKing) add(kAnswersCheckKing);
    if (m.kind() == Move::Kind::kPromotion) {
      add(m.promotion() == PieceType::kQueen ? kPromotes : kUnderPromotes);
    }
    if (check) add(see >= -60 ? kCheck : kCheckLoses);
    const float centre = static_cast<float>(centrality(m.to()) - centrality(m.from())) / 3.0F;
    add(static_cast<Feature>(kCenterPawn + static_cast<std::uint32_t>(mover) - 1), centre);

    Square lost = board::kNoSquare;
    const int hangs = best_capture(next, &lost);
    if (hangs >= 60) add(hangs < 220 ? kHangsPawn : hangs < 420 ? kHangsPiece : kHangsRook);
    if (threat >= 150) {
      if (hangs < threat - 100) {
        add(kSavesPiece);
      } else if (!capture && !check) {
        add(kIgnoresThreat);
      }
    }
    const Bitboard enemy_pawns = p.pieces(them, PieceType::kPawn);
    if (!capture && mover != PieceType::kPawn &&
        (board::pawn_attacks(us, m.to()) & enemy_pawns) != 0) {
      add(kIntoPawn);
    }
    if (m.from() == threatened && threat >= 150) add(kAttackedMoves);
    // What the moved piece newly looks at.
    const PieceType now = next.type_at(m.to());
    Bitboard targets = attacks_of(now, us, m.to(), next.occupied()) & next.pieces(them) &
                       ~next.pieces(PieceType::kPawn) & ~next.pieces(PieceType::kKing);
    bool bigger = false;
    bool loose = false;
    while (targets != 0) {
      const auto s = static_cast<Square>(__builtin_ctzll(targets));
      targets &= targets - 1;
      if (value_of(next.type_at(s)) > value_of(now) + 50) bigger = true;
      if ((next.attackers_to(s, next.occupied()) & next.pieces(them)) == 0) loose = true;
    }
    if (bigger) add(kAttacksBigger);
    if (loose) add(kAttacksLoose);

    if (!book.empty()) {
      double count = 0;
      for (const auto& b : book) {
        if (b.move == m) count = b.count;
      }
      if (count > 0) {
        add(kBookMove);
        add(kBookLog, static_cast<float>(std::log((count + 0.5) / (book_total + 1.0))));
      } else {
        add(kBookAbsent, static_cast<float>(std::log(book_total + 1.0)));
      }
    }
  }
}

}  // namespace

std::vector<SparseFeatures> policy_features(const PolicyInput& in, const board::MoveList& moves) {
  std::vector<SparseFeatures> out(moves.size());
  each_feature(in, moves,
               [&](std::size_t i, Feature id, float v) { out[i].emplace_back(id, v); });
  return out;
}

std::vector<float> policy_log_probs(const PolicyInput& in, const board::MoveList& moves,
                                    const std::vector<float>& weights) {
  std::vector<float> out(moves.size());
  each_feature(in, moves, [&](std::size_t i, Feature id, float v) { out[i] += weights[id] * v; });
  float top = -1e9F;
  for (const float score : out) top = std::max(top, score);
  double sum = 0;
  for (float s : out) sum += std::exp(static_cast<double>(s - top));
  const float norm = top + static_cast<float>(std::log(sum));
  for (float& s : out) s -= norm;
  return out;
}

}  // namespace plyscribe::resolve
