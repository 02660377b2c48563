// The lesson as a game file, in the export format of the PGN standard of 1994 (section 3.2).
//
//   [Event "An evening on the Two Knights"]
//   ...
//   1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 {0:00, the lesson begins here} 4. Ng5 {0:39} (4. d4
//   {0:40} 4... exd4 {10:36, unsure: heard 'ex before'}) 4... d5 $1 {1:10, recommended} *
//
// Every move of the lesson carries the time at which it was first named; a move that was made
// silently carries the time of the move it led to and "not said". Behind the time stands the link
// to it, if links are wanted and fit on a line; then, in words, what is unsure, what is advised and
// planned, and the remarks, cut to a length. What is judged stands as NAGs. Moves that reach the
// start position are part of the game where they are known; else SetUp and FEN give the position.
// Which child is the main line: see line_order.h. The result is * unless the main line ends in mate
// or stalemate: a reader may hold a file to the result on the board.
//
// Seven Tag Roster first, then the other tags in the order of their names: FEN, Media (the address
// of the recording), Opening, SetUp. Movetext lines have at most 79 columns. Tag pairs are one line
// each, however long the title. Text is UTF-8.
#ifndef PLYSCRIBE_PUBLISH_PGN_H_
#define PLYSCRIBE_PUBLISH_PGN_H_

#include <string>
#include <string_view>

#include "lesson/lesson.h"
#include "publish/link.h"

namespace plyscribe::publish {

struct Kind;
extern const Kind kPgnKind;

// What a game file has beside the lesson.
struct PgnOptions {
  Link link = {};
  std::string round = "?";   // of the Seven Tag Roster
  std::string section = {};  // the standard's tag for a part of an event: here, a chapter's title
};

std::string write_pgn(const lesson::Lesson& lesson, const PgnOptions& options = {});

// Text that may stand between braces. The standard has no escapes there: braces become brackets,
// control characters and runs of blanks one blank, and % is spelt out, since it hides the line it
// begins and opens command codes that some readers act on.
std::string comment_text(std::string_view text);

// The value of a tag pair, quotes included (section 8.1).
std::string tag_value(std::string_view text);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_PGN_H_
