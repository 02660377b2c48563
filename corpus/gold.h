// A lesson with its gold tree, laid over one of its transcripts.
//
// Input: gold.json and lecture.src of a lesson, and a transcript of the same lesson in any form.
// Output: the gold mentions as events on that transcript's tokens. Words of the two texts are
// aligned by edit distance; a mention's span is where its words, or what was heard for them, stand.
#ifndef PLYSCRIBE_CORPUS_GOLD_H_
#define PLYSCRIBE_CORPUS_GOLD_H_

#include <set>
#include <string>
#include <vector>

#include "board/position.h"
#include "hearing/lattice.h"
#include "support/result.h"

namespace plyscribe::corpus {

struct GoldNode {
  int parent = -1;
  board::Move move;
  board::Position position;
  bool unsaid = false;
};

struct GoldMention {
  std::uint32_t first = 0, last = 0;  // words of the script, [first, last)
  int node = 0;
  bool revisit = false;
};

struct GoldIdea {
  std::uint32_t first = 0, last = 0;
};

struct Gold {
  std::string name;
  std::vector<std::string> script;    // words of lecture.src as its compiler counts them
  std::vector<GoldNode> nodes;        // 0 is the start
  std::vector<GoldMention> mentions;  // in time order
  std::vector<GoldIdea> ideas;
  std::set<std::string> spoken;       // edge keys that count: "fen3|uci"
  std::set<std::string> free;         // unsaid edges and moves before the start
  std::string side;
  std::vector<board::Move> start_moves;
};

Result<Gold> load_gold(const std::string& lesson_dir);
// The same from the path of its gold.json; lecture.src must stand beside it. Errors name the file.
Result<Gold> load_gold_file(const std::string& path);

// Where script words [first, last) are heard, in tokens of the lattice: [lo, hi).
struct Span {
  std::uint32_t lo = 0, hi = 0;
};
class Alignment {
 public:
  Alignment(const Gold& gold, const transcript::Transcript& heard, const hearing::Lattice& lattice);
  Span tokens(std::uint32_t first, std::uint32_t last) const;

 private:
  std::uint32_t count_ = 0;            // tokens of the lattice
  std::vector<std::uint32_t> lo_, hi_;  // by script word
};

std::string edge_key(const board::Position& before, board::Move m);

}  // namespace plyscribe::corpus

#endif  // PLYSCRIBE_CORPUS_GOLD_H_
