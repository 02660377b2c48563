#include "publish/games.h"

#include <fmt/format.h>

#include <cstddef>

#include "publish/excerpt.h"
#include "publish/kind.h"
#include "publish/pgn.h"
#include "publish/sections.h"

namespace plyscribe::publish {

std::string write_games(const lesson::Lesson& lesson, const Link& link) {
  std::string out;
  std::size_t round = 0;
  for (const Section& section : sections(lesson)) {
    const lesson::Lesson game = excerpt(lesson, section.moves);
    if (!out.empty()) out += '\n';
    out += write_pgn(game,
                     {.link = link, .round = fmt::format("{}", ++round), .section = section.title});
  }
  return out.empty() ? write_pgn(lesson, {.link = link}) : out;
}

constinit const Kind kGamesKind = {
    .name = "games",
    .files = "games.pgn",
    .about = "game file with a game for each chapter",
    .needs_original = false,
    .write = [](const Edition& edition) -> Result<std::vector<Output>> {
      return std::vector<Output>{{"games.pgn", write_games(edition.lesson, edition.link)}};
    },
};

}  // namespace plyscribe::publish
