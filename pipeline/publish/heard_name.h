// What a move was called, as far as the heard words say it: a piece, a square.
//
//   name_in("knight to f three")   {piece 'N', square "f3"}
//   name_in("Bxe5+")               {piece 'B', square "e5"}
//   name_in("takes")               {piece 0,   square ""}
//
// For telling names apart, not for finding moves: mishearings are kept as they are.
#ifndef PLYSCRIBE_PUBLISH_HEARD_NAME_H_
#define PLYSCRIBE_PUBLISH_HEARD_NAME_H_

#include <string>
#include <string_view>

#include "lesson/lesson.h"

namespace plyscribe::publish {

struct HeardName {
  char piece = 0;      // K Q R B N P, or 0 where none was named
  std::string square;  // the last one named, where the move goes; empty where none was named
  friend bool operator==(const HeardName&, const HeardName&) = default;
};

HeardName name_in(std::string_view heard);

// Whether nothing in the words says another move.
bool fits(const HeardName& name, const board::Position& before, board::Move move);

// Whether the words say this move in full: its square, and its piece unless that is a pawn.
bool says(const HeardName& name, const board::Position& before, board::Move move);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_HEARD_NAME_H_
