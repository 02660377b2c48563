#include "board/position.h"

#include <gtest/gtest.h>

#include <random>
#include <string>

#include "board/attacks.h"
#include "board/notation.h"

namespace plyscribe::board {
namespace {

Position at(const char* fen) {
  const Result<Position> p = parse_fen(fen);
  if (!p) {
    ADD_FAILURE() << p.error().message;
    return Position();
  }
  return *p;
}

// Everything observable, key included.
std::string dump(const Position& p) {
  std::string out = to_fen(p) + " key " + std::to_string(p.key());
  for (Color c : {Color::kWhite, Color::kBlack}) {
    out += ' ' + std::to_string(p.pieces(c));
    for (int t = 1; t < 7; ++t) {
      out += ' ' + std::to_string(p.pieces(c, static_cast<PieceType>(t)));
    }
  }
  return out;
}

// Random walks with a fixed seed. A position reached by moves must equal the same position read
// from its FEN; the reader builds bitboards and key afresh.
TEST(Position, RandomWalksKeepEverythingInStep) {
  const char* starts[] = {
      "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
      "r3k2r/p1ppqpb1/bn2pnp1/3PN3/1p2P3/2N2Q1p/PPPBBPPP/R3K2R w KQkq - 0 1",
      "r3k2r/Pppp1ppp/1b3nbN/nP6/BBP1P3/q4N2/Pp1P2PP/R2Q1RK1 w kq - 0 1",
      "4k3/pppppppp/8/8/8/8/PPPPPPPP/4K3 w - - 0 1",
      "8/PPPk4/8/8/8/8/4Kppp/8 w - - 0 1",
  };
  std::mt19937_64 random(19501);
  int castlings = 0, passings = 0, promotions = 0, mates = 0;
  for (int walk = 0; walk < 200; ++walk) {
    Position p = at(starts[walk % 5]);
    for (int ply = 0; ply < 120; ++ply) {
      MoveList moves;
      p.legal_moves(moves);
      ASSERT_EQ(moves.size(), perft(p, 1)) << to_fen(p);
      if (moves.empty()) {
        EXPECT_EQ(p.is_checkmate(), p.in_check());
        EXPECT_EQ(p.is_stalemate(), !p.in_check());
        mates += p.in_check();
        break;
      }
      const std::string before = dump(p);
      for (Move m : moves) {
        const Position next = p.after(m);
        const std::string label = before + " after " + to_uci(m);
        ASSERT_EQ(dump(next), dump(at(to_fen(next).c_str()))) << label;
        ASSERT_EQ(p.gives_check(m), next.in_check()) << label;
        ASSERT_TRUE(p.is_legal(m)) << label;
        Undo undo;
        Position changed = p;
        changed.make(m, undo);
        ASSERT_EQ(dump(changed), dump(next)) << label;
        changed.unmake(m, undo);
        ASSERT_EQ(dump(changed), before) << label;
        const Result<Move> san = parse_san(p, to_san(p, m));
        ASSERT_TRUE(san && *san == m) << label << ' ' << to_san(p, m);
        const Result<Move> uci = parse_uci(p, to_uci(m));
        ASSERT_TRUE(uci && *uci == m) << label;
      }
      Move chosen = moves[random() % moves.size()];
      for (Move m : moves) {  // rare on its own
        if (m.kind() == Move::Kind::kEnPassant && random() % 2) chosen = m;
      }
      castlings += chosen.kind() == Move::Kind::kCastling;
      passings += chosen.kind() == Move::Kind::kEnPassant;
      promotions += chosen.kind() == Move::Kind::kPromotion;
      p = p.after(chosen);
    }
  }
  // The walks must have met what they are for.
  EXPECT_GT(castlings, 10);
  EXPECT_GT(passings, 10);
  EXPECT_GT(promotions, 50);
  EXPECT_GT(mates, 3);
}

TEST(Position, SamePositionSameKey) {
  const struct {
    const char *one, *other;
    bool same;
  } rows[] = {
      // Transposition.
      {"e4 e5 Nf3 Nc6", "Nf3 Nc6 e4 e5", true},
      {"Nf3 Nf6 Ng1 Ng8", "", true},
      // A double step that nobody can answer in passing leaves no trace.
      {"e4", "e3 e6 e4 e5", false},
      {"e3 Nf6 e4 Ng8", "e4", false},  // the other side is to move
      {"e3 Nf6 e4 Ng8 Nf3", "e4 Nf6 Nf3 Ng8", false},
      {"e3 Nf6 e4 Ng8 Nf3 Nf6", "e4 Nf6 Nf3", false},
      {"e4 Nf6 Nf3 Ng8 Ng1", "e4", true},
      // One that can be answered does, for one move.
      {"e4 a6 e5 d5 Nf3 a5 Ng1", "e4 a6 e5 d5 Nf3 a5 Ng1", true},
      {"e4 a6 e5 d5", "e4 d6 e5 d5 Nf3 Nf6 Ng1 Ng8 Nf3", false},
      {"e4 Nf6 e5 Ng8 Nf3 d5 Ng1 Nf6 Nf3 Ng8", "e4 Nf6 e5 Ng8 Nf3 d5", false},
      // A lost right tells positions apart.
      {"e4 e5 Ke2 Ke7 Ke1 Ke8", "e4 e5", false},
      {"Nf3 Nf6 Rg1 Rg8 Rh1 Rh8", "Nf3 Nf6", false},
  };
  for (const auto& row : rows) {
    std::uint64_t keys[2];
    int i = 0;
    for (const char* text : {row.one, row.other}) {
      Position p = Position::initial();
      const Result<std::vector<Move>> line = parse_line(p, text);
      ASSERT_TRUE(line) << line.error().message;
      for (Move m : *line) p = p.after(m);
      keys[i++] = p.key();
    }
    EXPECT_EQ(keys[0] == keys[1], row.same) << row.one << " / " << row.other;
  }
}

TEST(Position, EnPassantSquareOnlyWhereAPawnCanLegallyTake) {
  const struct {
    const char *fen, *move;
    bool kept;
    const char* why;
  } rows[] = {
      {"4k3/3p4/8/4P3/8/8/8/4K3 b - - 0 1", "d7d5", true, "a neighbour stands ready"},
      {"4k3/3p4/8/5P2/8/8/8/4K3 b - - 0 1", "d7d5", false, "no neighbour"},
      {"4k3/7p/8/P7/8/8/8/4K3 b - - 0 1", "h7h5", false, "the other edge is no neighbour"},
      {"7k/3p4/8/K3P2r/8/8/8/8 b - - 0 1", "d7d5", false, "both pawns leave the rank"},
      {"7k/3p4/8/K1P1P2r/8/8/8/8 b - - 0 1", "d7d5", true, "another pawn still shields"},
      {"4r2k/3p4/8/4P3/8/8/8/4K3 b - - 0 1", "d7d5", false, "pinned on the file"},
      {"7k/3p4/8/4P3/2K5/8/8/8 b - - 0 1", "d7d5", true, "takes the pawn that checks"},
      {"7k/3p2b1/8/4P3/3K4/8/8/8 b - - 0 1", "d7d5", false, "pinned on the other diagonal"},
      {"4k3/3p4/5b2/4P3/8/8/8/K7 b - - 0 1", "d7d5", false, "pinned on a long diagonal"},
      {"3rk3/3p4/8/4P3/8/8/8/3K4 b - - 0 1", "d7d5", true, "stays in front of the king"},
      {"k7/8/8/8/4p3/8/3P4/K7 w - - 0 1", "d2d4", true, "the same for Black"},
  };
  for (const auto& row : rows) {
    Position p = at(row.fen);
    const Result<Move> m = parse_uci(p, row.move);
    ASSERT_TRUE(m) << m.error().message;
    p = p.after(*m);
    EXPECT_EQ(p.en_passant() != kNoSquare, row.kept) << row.fen << ": " << row.why;
  }
}

TEST(Position, ChecksAndEndings) {
  const struct {
    const char* fen;
    int checkers;
    bool checkmate, stalemate;
  } rows[] = {
      {"rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1", 0, false, false},
      {"rnb1kbnr/pppp1ppp/8/4p3/6Pq/5P2/PPPPP2P/RNBQKBNR w KQkq - 1 3", 1, true, false},
      {"4k3/8/5N2/8/8/8/4R3/4K3 b - - 0 1", 2, false, false},
      {"7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", 0, false, true},
      {"7k/6Q1/6K1/8/8/8/8/8 b - - 0 1", 1, true, false},
      {"6rk/6pp/7N/8/8/8/8/K7 b - - 0 1", 0, false, false},
      {"6rk/5Npp/8/8/8/8/8/K7 b - - 0 1", 1, true, false},
      {"k7/P7/K7/8/8/8/8/8 b - - 0 1", 0, false, true},
      {"7k/8/8/3Pp3/2KP4/2PPP3/8/8 w - e6 0 1", 0, false, false},
      // Checked by the pawn that has just moved: only en passant saves.
      {"7k/3n4/8/3PpPP1/4PKP1/4PPP1/8/8 w - e6 0 1", 1, false, false},
      {"7k/3n4/8/3PpPP1/4PKP1/4PPP1/8/8 w - - 0 1", 1, true, false},
  };
  for (const auto& row : rows) {
    const Position p = at(row.fen);
    EXPECT_EQ(std::popcount(p.checkers()), row.checkers) << row.fen;
    EXPECT_EQ(p.is_checkmate(), row.checkmate) << row.fen;
    EXPECT_EQ(p.is_stalemate(), row.stalemate) << row.fen;
  }
}

TEST(Position, WithoutAKingThereAreNoMovesAndNoChecks) {
  Position p;
  EXPECT_EQ(p.king(Color::kWhite), kNoSquare);
  p.put(Color::kWhite, PieceType::kRook, 0);
  p.put(Color::kBlack, PieceType::kKing, 7);
  MoveList moves;
  p.legal_moves(moves);
  EXPECT_TRUE(moves.empty());
  EXPECT_FALSE(p.in_check());
  EXPECT_FALSE(p.is_checkmate());
  EXPECT_FALSE(p.is_stalemate());
  p.set_side(Color::kBlack);
  EXPECT_TRUE(p.in_check());
  EXPECT_FALSE(p.is_checkmate());
}

TEST(Position, SetUpByHandEqualsReading) {
  Position p;
  p.put(Color::kWhite, PieceType::kKing, 4);
  p.put(Color::kBlack, PieceType::kQueen, 60);
  p.put(Color::kBlack, PieceType::kKing, 60);  // replaces the queen
  p.put(Color::kWhite, PieceType::kRook, 7);
  p.put(Color::kWhite, PieceType::kPawn, 36);
  p.put(Color::kBlack, PieceType::kPawn, 35);
  p.put(Color::kBlack, PieceType::kPawn, 10);
  p.remove(10);
  p.remove(11);  // empty already
  p.set_castling(Position::kWhiteShort);
  p.set_en_passant(43);
  p.set_clocks(3, 9);
  EXPECT_EQ(dump(p), dump(at("4k3/8/8/3pP3/8/8/8/4K2R w K d6 3 9")));
  p.set_en_passant(44);  // no pawn can take there: dropped
  EXPECT_EQ(dump(p), dump(at("4k3/8/8/3pP3/8/8/8/4K2R w K - 3 9")));
}

TEST(Position, ClocksCount) {
  Position p = Position::initial();
  const Result<std::vector<Move>> line = parse_line(p, "Nf3 Nf6 e4 Nxe4 Be2 Nd6 O-O");
  ASSERT_TRUE(line) << line.error().message;
  const int clocks[] = {1, 2, 0, 0, 1, 2, 3}, numbers[] = {1, 2, 2, 3, 3, 4, 4};
  int i = 0;
  for (Move m : *line) {
    p = p.after(m);
    EXPECT_EQ(p.halfmove_clock(), clocks[i]) << i;
    EXPECT_EQ(p.fullmove_number(), numbers[i]) << i;
    ++i;
  }
}

}  // namespace
}  // namespace plyscribe::board
