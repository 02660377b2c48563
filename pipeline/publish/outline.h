// The lesson as an outline to read in a terminal.
//
//   An evening on the Two Knights
//   for Black, 13:43; from 1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 (Two Knights Defence; opening name)
//
//      0:39  4. Ng5
//      0:40  │ 4. d4 exd4
//     10:38  │ │ 5. Nxd4?
//     10:44  │ 5. e5~
//      1:10  4... d5 5. exd5 (Na5), recommended 6. [Bb5+ "be five"]
//
//   Not placed
//      3:12  "rook e one" no rook can go there
//
//   154 moves: 120 clear, 20 mended, 10 unsure, 4 not said; 2 ideas; 1 not placed
//   ~ misheard and mended, [ ] unsure, with the words heard, ( ) not said
//
// A line runs until the tree branches; each branch stands behind one bar more, the main line (see
// line_order.h) goes on below them. The time is that of the line's first move. Square brackets ask
// for a look: they hold the move and, where these differ from it, the words that were heard.
// Judgements stand as the PGN standard's suffixes (section 8.2.3.8).
//
// Colours repeat what the marks say and add nothing: times, numbers and bars step back, mended and
// unsure moves stand out. Text from the transcript can set no colour and move no cursor: its
// control characters, and those that change the direction of writing, are shown as U+FFFD.
#ifndef PLYSCRIBE_PUBLISH_OUTLINE_H_
#define PLYSCRIBE_PUBLISH_OUTLINE_H_

#include <cstddef>
#include <string>

#include "lesson/lesson.h"

namespace plyscribe::publish {

// What the place can show where the outline is read.
struct OutlineStyle {
  std::size_t columns = 79;  // of the longest line; at least 40
  bool colour = false;       // as a terminal takes it (ECMA-48, SGR)
  bool utf8 = true;          // bars as U+2502; else '|'
};

std::string write_outline(const lesson::Lesson& lesson, const OutlineStyle& style = {});

// "154 moves: 120 clear, 20 mended, 10 unsure, 4 not said; 12 ideas; 2 not placed"
std::string write_summary(const lesson::Lesson& lesson);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_OUTLINE_H_
