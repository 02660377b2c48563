// The lesson as a file of games, one for each chapter, each from the beginning.
//
//   [Event "An evening on the Two Knights: 4. Ng5"]     [Round "2"]
//
// What a chapter holds, sections.h says: a move is in one chapter, the moves that lead there are
// written without comment on them.
#ifndef PLYSCRIBE_PUBLISH_GAMES_H_
#define PLYSCRIBE_PUBLISH_GAMES_H_

#include <string>

#include "lesson/lesson.h"
#include "publish/link.h"

namespace plyscribe::publish {

struct Kind;
extern const Kind kGamesKind;

std::string write_games(const lesson::Lesson& lesson, const Link& link = {});

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_GAMES_H_
