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

struct Mention {
  Span span;
  std::string said;      // the move that was meant, in SAN
  bool revisit = false;  // said again, of a move already in the tree
  double confidence = 1;
  bool settled = false;  // by a person's pin
};

// What the speaker advises about a move.
enum class Advice : std::uint8_t { kNone, kRecommended, kDiscouraged };

struct Node {
  NodeId parent = -1;
  board::Move move;
  board::Position position;  // after the move
  std::string san;
  double t = 0;
  Status status = Status::kClear;
  double confidence = 1;
  std::vector<Mention> mentions;     // in time order
  std::vector<Choice> alternatives;  // other moves that the first mention's words may name
  std::vector<int> nags;
  Advice advice = Advice::kNone;
  std::vector<std::string> remarks;
  bool unsaid = false;  // made on the board, never named
};

// A move that was talked of and not played, said while the board stood at `node`.
struct Idea {
  Span span;
  NodeId node = 0;
  std::string text;      // SAN if is_move, else the squares that were named
  bool is_move = false;  // legal at node, for either side
  bool settled = false;  // not played, says a person's pin
};

// Words that name a move which fits nowhere.
struct Loose {
  Span span;
  std::string why;
};

struct Credit {  // a game or player that was named
  double t = 0, t_end = 0;
  std::string text;
};

struct Chapter {
  double t = 0;
  std::string title;
};

struct Start {
  std::vector<board::Move> moves;  // from the initial position, where known
  std::string how;                 // see resolve::Start
  std::string name;                // of the opening, if any
  double confidence = 1;
};

struct Lesson {
  std::string title;
  std::string media;  // address of the recording, if known
  double duration = 0;
  board::Color side = board::Color::kWhite;  // whom the lesson is for
  Start start;
  std::vector<Node> nodes;  // never empty
  std::vector<Idea> ideas;  // these four in time order
  std::vector<Loose> loose;
  std::vector<Credit> credits;
  std::vector<Chapter> chapters;
};

double round_seconds(double t);
double round_share(double p);

// Cost: linear in words and nodes.
Lesson build_lesson(const resolve::Decoding& decoding, const transcript::Transcript& transcript);

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_LESSON_H_
