// plyscribe score GOLD.json OUT.pgn: how much of a lesson's gold tree a game file has.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "app/commands.h"
#include "app/files.h"
#include "publish/score.h"

namespace plyscribe::app {
namespace {

struct ScoreOptions {
  std::string gold, pgn;
  bool verbose = false;
};

Status run(const ScoreOptions& options) {
  const auto gold_bytes = read_file(options.gold);
  if (!gold_bytes) return complain(gold_bytes.error().message);
  const auto gold = publish::read_gold(*gold_bytes, options.gold);
  if (!gold) return complain(gold.error().message);
  const auto pgn_bytes = read_file(options.pgn);
  if (!pgn_bytes) return complain(pgn_bytes.error().message);
  const auto games = publish::read_pgn(*pgn_bytes, options.pgn);
  if (!games) return complain(games.error().message);

  const publish::Score score = publish::score(*gold, *games);
  std::string out;
  if (options.verbose) {
    for (const std::string& path : score.missed) out += fmt::format("missed  {}\n", path);
    for (const auto& extra : score.extra)
      out += fmt::format("extra   {}  at {}\n", extra.san, extra.fen);
  }
  out += publish::score_line(score) + "\n";
  if (const auto error = write_standard_output(out)) return complain(error->message);
  return Status::kDone;
}

}  // namespace

void add_score_command(CLI::App& program, Status& status) {
  auto options = std::make_shared<ScoreOptions>();
  CLI::App* command =
      program.add_subcommand("score", "Compare a game file with a lesson's gold tree");
  command->add_option("GOLD", options->gold, "Gold tree (gold.json)")->required();
  command->add_option("OUT", options->pgn, "Game file (PGN), or - for standard input")->required();
  command->add_flag("-v,--verbose", options->verbose, "List what was missed and what was extra");
  command->footer(
      "An edge is a position and a move. P: share of the file's edges that are right;\n"
      "R: share of the gold's edges that the file has; F1: their harmonic mean. Moves\n"
      "that were never said and moves before the lesson's start count neither way.\n\n"
      "Example:\n"
      "  plyscribe score corpus/lessons/two-knights/gold.json lesson.pgn -v");
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace plyscribe::app
