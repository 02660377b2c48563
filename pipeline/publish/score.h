// How near a game file comes to the gold tree of its lesson, edge by edge.
//
//   Gold gold = *read_gold(bytes, "gold.json");
//   Score s = score(gold, *read_pgn(pgn, "lesson.pgn"));     s.f1() ...
//
// An edge is a position (FEN fields 1 to 3: placement, side to move, castling) and a move (UCI);
// two paths to the same position share their edges. Edges that the gold marks as unsaid, and the
// moves from the initial position to the gold's start, are free: neither required nor held against
// the file. All games of the file count as one set.
#ifndef PLYSCRIBE_PUBLISH_SCORE_H_
#define PLYSCRIBE_PUBLISH_SCORE_H_

#include <string>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "publish/pgn_reader.h"
#include "support/result.h"

namespace plyscribe::publish {

struct GoldEdge {
  std::string edge;  // "PLACEMENT SIDE CASTLING|UCI"
  std::string path;  // SAN moves from the lesson's start to this one, this one included
};

struct Gold {
  std::vector<GoldEdge> said;  // each edge once
  std::unordered_set<std::string> free;
};

struct ExtraEdge {
  std::string san, fen;
};

struct Score {
  std::size_t gold = 0, hit = 0, free = 0;
  std::vector<std::string> missed;  // paths
  std::vector<ExtraEdge> extra;

  double precision() const;  // these three 0..1; 0 where nothing can be divided
  double recall() const;
  double f1() const;
};

// Errors: "NAME:PLACE: expected ...".
Result<Gold> read_gold(std::string_view json, std::string_view name);

Score score(const Gold& gold, const std::vector<PgnGame>& games);

// "P 46.2  R 35.1  F1 39.9  (gold 117, hit 41, extra 48, free 3)", percentages rounded half up.
std::string score_line(const Score& score);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_SCORE_H_
