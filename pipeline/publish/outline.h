// The lesson as an outline to read in a terminal.
//
//   An evening on the Two Knights
//   for Black, 13:43; from 1. e4 e5 2. Nf3 Nc6 3. Bc4 Nf6 (Two Knights Defence; opening name)
//
//      0:39  4. Ng5
//      0:40    4. d4 exd4
//     10:38      5. Nxd4
//     10:44      5. e5~
//      1:10  4... d5 5. exd5 (5... Na5) 6. Bb5+ [heard "be five"]
//
//   Not placed
//      3:12  "rook e one"  no rook can go there
//
//   154 moves: 120 clear, 20 mended ~, 10 unsure [heard], 4 not said ( )
//
// A line runs until the tree branches; each branch is a step further in, the main line (see
// line_order.h) goes on behind them. The time is that of the line's first move. Plain text of at
// most 79 columns: marks and words, no colours.
#ifndef PLYSCRIBE_PUBLISH_OUTLINE_H_
#define PLYSCRIBE_PUBLISH_OUTLINE_H_

#include <string>

#include "lesson/lesson.h"

namespace plyscribe::publish {

std::string write_outline(const lesson::Lesson& lesson);

// "154 moves: 120 clear, 20 mended, 10 unsure, 4 not said; 12 ideas; 2 not placed"
std::string write_summary(const lesson::Lesson& lesson);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_OUTLINE_H_
