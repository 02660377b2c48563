#include <algorithm>
#include <cstdio>
#include <cstdlib>

#include "tests/fuzz/target.h"

namespace plyscribe::fuzz {
namespace {

constexpr Target kTargets[] = {
    {"text", 4096, read_text},  {"srt", 4096, read_srt},     {"vtt", 4096, read_vtt},
    {"ttml", 4096, read_ttml},  {"ctm", 4096, read_ctm},     {"json", 4096, read_json},
    {"any", 4096, read_any},    {"fen", 256, fen},           {"san", 256, san},
    {"pgn", 4096, pgn},         {"game_file", 512, game_file}, {"lattice", 256, lattice},
    {"decode", 128, decode},    {"pins", 2048, pins},        {"lesson", 16384, lesson},
    {"request", 1024, request}, {"server", 2048, server},
};

}  // namespace

std::span<const Target> targets() { return kTargets; }

const Target* find_target(std::string_view name) {
  const auto* const it = std::find_if(std::begin(kTargets), std::end(kTargets),
                                      [&](const Target& t) { return t.name == name; });
  return it == std::end(kTargets) ? nullptr : it;
}

void expect(bool holds, std::string_view what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %.*s\n", static_cast<int>(what.size()), what.data());
  std::abort();
}

void expect_line(std::string_view message) {
  expect(!message.empty(), "an error says what was expected");
  expect(message.find('\n') == std::string_view::npos, "an error is one line");
}

}  // namespace plyscribe::fuzz
