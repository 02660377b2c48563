// A position as a picture: SVG that stands alone, or that shares its pieces with a page.
//
//   write_diagram(p, {.below = Color::kBlack, .last = move})       a file of its own
//   piece_symbols() once in a page, then diagram_element(p, ...)   any number of them
//
//          viewBox 0 0 920 880; a square is 100 wide, the board begins at (60, 20)
//      8 |. . . . . . . .|        a piece   <use href="#piece-knight" x="260" y="720" fill=.../>
//        |               | o      o         who is to move: on White's side or Black's, in his
//        paint
//      1 |. . . . . . . .|        last      a ring where the piece came from, a frame where it went
//         a             h
//
// The title is the position in words, for those who listen to the page; the description is its FEN.
// All is drawn with shapes, so it comes out of a printer that leaves backgrounds away.
#ifndef PLYSCRIBE_PUBLISH_DIAGRAM_H_
#define PLYSCRIBE_PUBLISH_DIAGRAM_H_

#include <string>

#include "board/position.h"

namespace plyscribe::publish {

struct DiagramOptions {
  board::Color below = board::Color::kWhite;  // whose side is at the foot
  board::Move last = board::kNoMove;          // the move that led here
};

std::string write_diagram(const board::Position& p, const DiagramOptions& options = {});

// An <svg> element without its pieces' outlines, which piece_symbols puts into the page.
std::string diagram_element(const board::Position& p, const DiagramOptions& options = {});
std::string piece_symbols();

// "White: king e1, queen d1, ... Black: ... White to move."
std::string position_in_words(const board::Position& p);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_DIAGRAM_H_
