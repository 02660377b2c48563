// plyscribe score GOLD.json OUT.pgn: how much of a lesson's gold tree a game file has.
// plyscribe score --corrections GOLD.json LESSON: how many corrections make it the gold tree.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <string>

#include "app/commands.h"
#include "app/files.h"
#include "app/messages.h"
#include "corpus/corrections.h"
#include "publish/score.h"

namespace plyscribe::app {
namespace {

struct ScoreOptions {
  std::string gold, pgn;
  bool verbose = false, corrections = false;
};

std::string clock(double t) {
  const auto whole = static_cast<long>(t);
  return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

// "corrections 12  spoken edges 149  per 100 8.1  left 0"
Status run_corrections(const ScoreOptions& options) {
  const auto gold = corpus::load_gold_file(options.gold);
  if (!gold) return complain(gold.error().message);
  const auto bytes = read_file(options.pgn);
  if (!bytes) return complain(bytes.error().message);
  const auto transcript = transcript::read_transcript(*bytes, options.pgn);
  if (!transcript) return complain(transcript.error().message);
  const auto c = corpus::correct(*gold, *transcript);
  if (!c) return complain(fmt::format("{}:1: {}", options.pgn, c.error().message));
  std::string out;
  for (std::size_t i = 0; options.verbose && i < c->fixes.size(); ++i) {
    const corpus::Fix& fix = c->fixes[i];
    out += fmt::format("{:>3}  {:>6}  {}{}\n", i + 1, clock(fix.t),
                       fix.heard.empty() ? "" : "\"" + fix.heard + "\" ", fix.what);
  }
  for (const std::string& left : c->left) out += fmt::format("left  {}\n", left);
  out += fmt::format("corrections {}  spoken edges {}  per 100 {:.1f}  left {}\n", c->fixes.size(),
                     c->spoken, c->per_hundred(), c->left.size());
  if (const auto error = write_standard_output(out)) return complain(error->message);
  if (options.verbose && c->decode_seconds.size() > 1) {
    std::vector<double> again(c->decode_seconds.begin() + 1, c->decode_seconds.end());
    std::sort(again.begin(), again.end());
    say(fmt::format("decoded in {:.0f} ms, again in {:.0f} ms (median), {:.0f} ms (most)",
                    1000 * c->decode_seconds[0], 1000 * again[again.size() / 2],
                    1000 * again.back()));
  }
  return Status::kDone;
}

Status run(const ScoreOptions& options) {
  if (options.corrections) return run_corrections(options);
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
  command->add_flag("--corrections", options->corrections,
                    "OUT is the lesson's transcript: count the corrections to the gold tree");
  command->add_flag("-v,--verbose", options->verbose,
                    "List what was missed and what was extra, or each correction");
  command->footer(
      "An edge is a position and a move. P: share of the file's edges that are right;\n"
      "R: share of the gold's edges that the file has; F1: their harmonic mean. Moves\n"
      "that were never said and moves before the lesson's start count neither way.\n\n"
      "With --corrections, an oracle settles the first wrong move by a pin and decodes\n"
      "again until the tree is the gold tree; needs lecture.src beside GOLD.\n\n"
      "Examples:\n"
      "  plyscribe score gold.json lesson.pgn -v\n"
      "  plyscribe score --corrections gold.json heard.txt");
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace plyscribe::app
