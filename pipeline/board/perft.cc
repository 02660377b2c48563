// Perft: the number of move sequences of a given length. The last move is counted, not played.
#include "board/make.h"
#include "board/movegen.h"
#include "board/position.h"

namespace plyscribe::board {

struct Perft {
  template <Color Us>
  static std::uint64_t count(const Position& p, int depth) {
    if (depth == 1) {
      CountSink sink;
      generate<Us>(p, sink);
      return sink.count;
    }
    MoveList moves;
    ListSink sink{moves};
    generate<Us>(p, sink);
    std::uint64_t nodes = 0;
    for (Move m : moves) {
      Position next = p;
      next.play<Us>(m);
      nodes += count<~Us>(next, depth - 1);
    }
    return nodes;
  }
};

std::uint64_t perft(const Position& p, int depth) {
  if (depth <= 0) return 1;
  return p.side_to_move() == Color::kWhite ? Perft::count<Color::kWhite>(p, depth)
                                           : Perft::count<Color::kBlack>(p, depth);
}

}  // namespace plyscribe::board
