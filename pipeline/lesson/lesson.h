// The lesson tree: every move that was meant, when it was said, and how sure that is.
//
// Input: what the search decided (resolve::Decoding) and the words it was decided from.
// Output: a Lesson, which needs neither of them any more. Everything that is published is made
// from it, and lesson_json.h keeps it in a file.
//
//   nodes[0]  the start position: no move, no mention
//   nodes[i]  parent < i; position = parent's position after the move, always legal
//
//   0 (start) -- 1 Ng5 -- 3 d5 -- ...
//            \-- 2 d4 -- ...
//
// Times are seconds from the start of the recording. A node's time is that of its first mention; a
// move that was never named borrows the earliest time among the moves that follow it, and its
// confidence with it, so every move has a time.
//
// Times are whole hundredths, confidences whole ten-thousandths: lesson.json keeps as much, so what
// is published from the file is what is published from memory.
#ifndef PLYSCRIBE_LESSON_LESSON_H_
#define PLYSCRIBE_LESSON_LESSON_H_

#include <cstdint>
#include <string>
#include <vector>

#include "board/position.h"
#include "lesson/status.h"
#include "resolve/decoding.h"
#include "transcript/transcript.h"

namespace plyscribe::lesson {

using NodeId = std::int32_t;  // index into Lesson::nodes

// A move that words may mean, and how likely.
struct Choice {
  std::string san;
  double confidence = 0;
};

// Words [first_word, last_word) of the transcript.
struct Span {
  double t = 0, t_end = 0;
  std::uint32_t first_word = 0, last_word = 0;
  std::string heard;  // the words as the recogniser wrote them, one blank between two
};

// One time that a move was spoken of.
struct Mention {
  Span span;
  std::string said;      // the move that was meant, in SAN
  bool revisit = false;  // said again, of a move already in the tree
  double confidence = 1;
  bool settled = false;  // by a person's pin
};

// What the speaker advises about a move: play it; one can play it; leave it; it is shown so that
// nothing is missing.
enum class Advice : std::uint8_t {
  kNone,
  kRecommended,
  kPlayable,
  kAvoided,
  kForCompleteness,
};

// "that's a blunder", of the move; "Black is fine", of the position after it.
struct Judgement {
  int nag = 0;  // Numeric Annotation Glyph, PGN standard section 10
  Span span;    // the words that say so
};

// Advice about a move, and the words that give it.
struct Counsel {
  Advice advice = Advice::kNone;
  Span span;
};

// A move of the tree and all that was said of it; of nodes[0], the start position.
struct Node {
  NodeId parent = -1;
  board::Move move;
  board::Position position;  // after the move
  std::string san;
  double t = 0;
  Status status = Status::kClear;
  double confidence = 1;
  std::vector<Mention> mentions;      // in time order
  std::vector<Choice> alternatives;   // other moves that the first mention's words may name
  std::vector<Judgement> judgements;  // these three in time order
  std::vector<Counsel> counsels;
  std::vector<Span> remarks;      // sentences, with their marks: plans, rules of thumb
  Advice advice = Advice::kNone;  // what the counsels come to
  bool unsaid = false;            // made on the board, never named
};

// A move that was talked of and not played, said while the board stood at `node`.
struct Idea {
  Span span;
  NodeId node = 0;
  std::string text;      // SAN if is_move, else the squares that were named
  bool is_move = false;  // legal at node, for either side
  bool settled = false;  // not played, says a person's pin
  double confidence = 1;
};

// Words that name a move which fits nowhere.
struct Loose {
  Span span;
  std::string why;
};

// A game or a player that was named. What was not said is empty; names are as they were heard.
struct Credit {
  Span span;
  std::string player, opponent, event, year;
  NodeId node = 0;  // the position on the board meanwhile
};

// A part of the lesson: a main branch of the tree and the time from which it is spoken of.
struct Chapter {
  double t = 0;
  std::string title;
  NodeId node = 0;  // the branch's first move; 0: what belongs to no branch
};

// Where the lesson begins, and how that is known.
struct Start {
  std::vector<board::Move> moves;  // from the initial position, where known
  std::string how;                 // see resolve::Start
  std::string name;                // of the opening, if any
  double confidence = 1;
};

// All that is known about a lesson. Indices and spans stay true as long as nobody changes it.
struct Lesson {
  std::string title;
  std::string media;  // address of the recording, if known
  double duration = 0;
  board::Color side = board::Color::kWhite;  // whom the lesson is for
  Start start;
  std::vector<Node> nodes;  // never empty
  std::vector<Idea> ideas;  // these five in time order
  std::vector<Loose> loose;
  std::vector<Credit> credits;
  std::vector<Span> references;   // to other lessons
  std::vector<Span> corrections;  // the lecturer's of himself: "Bc5, sorry, Bd6"
  std::vector<Chapter> chapters;
};

// The node's judgements as numbers, each once, in the order in which they were first said.
std::vector<int> nags_of(const Node& node);

double round_seconds(double t);
double round_share(double p);

// Cost: linear in words and nodes.
Lesson build_lesson(const resolve::Decoding& decoding, const transcript::Transcript& transcript);

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_LESSON_H_
