// What the search hands on: the tree it settled on, and what every stretch of words became.
//
// Input of the stage: a transcript, its lattice of readings, a start (or the wish to infer it).
// Output: a Decoding. Nodes come parents first; node 0 is the start position and has no move.
// No node ever holds an illegal move.
#ifndef PLYSCRIBE_RESOLVE_DECODING_H_
#define PLYSCRIBE_RESOLVE_DECODING_H_

#include <cstdint>
#include <string>
#include <vector>

#include "board/position.h"
#include "resolve/confidence.h"
#include "resolve/pin.h"

namespace plyscribe::resolve {

enum class Act : std::uint8_t { kPlay, kRevisit, kIdea, kLoose };

// A position of the tree that was decided on.
struct Node {
  std::int32_t parent = -1;  // index into nodes
  board::Move move;
  board::Position position;  // after the move
  bool unsaid = false;       // made on the board, never named
};

// A move that a mention may mean, and how likely.
struct Choice {
  std::string san;
  double share = 0;  // posterior share, 0..1
};

// Words [first_word, last_word) named a move.
struct Mention {
  std::uint32_t first_word = 0, last_word = 0;
  Act act = Act::kLoose;
  std::int32_t node = -1;   // kPlay, kRevisit: the node; kIdea: the node at whose position it was said
  std::string idea;         // kIdea: SAN where legal for either side, else the words' own squares
  std::string why;          // kLoose: why it could not be placed
  bool as_heard = true;     // the move is what the words say; false: a mishearing was put right
  double confidence = 1;    // that the act and node are right
  double share = 1;         // of the beam, some tokens on, that did the same with the words
  Evidence evidence;        // kPlay, kRevisit: what the confidence was made from
  bool settled = false;     // a person's pin says so: certain, no alternatives
  std::vector<Choice> alternatives;  // other moves for the same words, best first
};

// Where the lesson begins, and how that is known.
struct Start {
  board::Position position;
  std::vector<board::Move> moves;  // from the initial position, where known
  std::string how;                 // "given", "opening name", "moves said", "position told", "initial"
  std::string name;                // opening name from the table, if any
  double confidence = 1;
};

// One reading of the whole lesson.
struct Decoding {
  Start start;
  board::Color side = board::Color::kWhite;  // whom the lesson is for
  std::vector<Node> nodes;
  std::vector<Mention> mentions;  // by first word
  std::vector<UnheldPin> unheld;  // pins that could not hold
  double cost = 0;                // of the winning hypothesis, nats
};

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_DECODING_H_
