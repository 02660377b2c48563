// The examples of grammar/spoken-moves.md. Each row of its tables is a phrase and what it means, in
// the notation explained there; "talk" means that nothing in the phrase is strongly read as a move.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <string>
#include <vector>

#include "grammar/grammar.h"
#include "hearing/lattice.h"
#include "transcript/transcript.h"

namespace plyscribe::hearing {
namespace {

constexpr char kPage[] = PLYSCRIBE_SOURCE_DIR "/grammar/spoken-moves.md";

struct Example {
  int line = 0;
  std::string section, phrase, meaning;
};

std::string trimmed(const std::string& s) {
  const auto first = s.find_first_not_of(' ');
  return first == std::string::npos ? "" : s.substr(first, s.find_last_not_of(' ') - first + 1);
}

std::vector<Example> examples() {
  std::vector<Example> out;
  std::ifstream page(kPage);
  std::string text, section;
  for (int line = 1; std::getline(page, text); ++line) {
    if (text.starts_with("#")) section = text.substr(text.find(' ') + 1);
    if (!text.starts_with("| ") || text.starts_with("| ---") || text.starts_with("| phrase"))
      continue;
    const auto bar = text.find(" | ");
    const auto end = text.rfind(" |");
    if (bar == std::string::npos || end <= bar) {
      ADD_FAILURE() << kPage << ":" << line << ": expected | phrase | meaning |, found " << text;
      continue;
    }
    out.push_back({line, section, trimmed(text.substr(2, bar - 2)),
                   trimmed(text.substr(bar + 3, end - bar - 3))});
  }
  return out;
}

template <std::size_t N>
std::size_t cheapest(const std::array<float, N>& costs) {
  return static_cast<std::size_t>(std::min_element(costs.begin(), costs.end()) - costs.begin());
}

// "d5"; "d*" where the rank is open, "*5" where the file is.
std::string target(const std::array<float, 64>& costs) {
  const std::size_t to = cheapest(costs);
  const auto as_good = [&](std::size_t square) { return costs[square] - costs[to] < 0.01F; };
  const bool any_rank = as_good(to % 8) && as_good(to % 8 + 56);
  const bool any_file = as_good(to / 8 * 8) && as_good(to / 8 * 8 + 7);
  return {any_file ? '*' : static_cast<char>('a' + to % 8),
          any_rank ? '*' : static_cast<char>('1' + to / 8)};
}

// "piece-file-takes-on N b x d7": pattern, piece, origin, x, victim, target, promotion, check.
std::string dump(const Reading& r) {
  constexpr std::string_view pieces = ".PNBRQK";
  const auto letter = [&](std::size_t piece) { return std::string(1, pieces[piece]); };
  const auto add = [](std::string& s, const std::string& part) { s += ' ' + part; };
  std::string s = grammar::grammar().patterns()[r.pattern].name;
  if (r.castle != 0) add(s, r.castle == 1 ? "O-O?" : r.castle == 2 ? "O-O" : "O-O-O");
  if (r.has_piece) add(s, letter(cheapest(r.piece)));
  std::string from;
  if (r.has_from_file) from += static_cast<char>('a' + cheapest(r.from_file));
  if (r.has_from_rank) from += static_cast<char>('1' + cheapest(r.from_rank));
  if (!from.empty()) add(s, from);
  if (r.takes) add(s, "x");
  if (r.has_victim) add(s, "=" + letter(cheapest(r.victim)));
  if (r.has_to) add(s, target(r.to));
  if (r.en_passant) add(s, "ep");
  if (r.promotion != board::PieceType::kNone) {
    add(s, "/" + letter(static_cast<std::size_t>(r.promotion)));
  }
  if (r.check) add(s, "+");
  if (r.mate) add(s, "#");
  return s;
}

Lattice heard(const std::string& phrase) {
  const auto t = transcript::read_transcript("[0:00] " + phrase + "\n[0:05] Good.\n", "phrase");
  EXPECT_TRUE(t) << t.error().message;
  return build_lattice(*t);
}

// The cheapest strong reading of all the words; of equals the one whose pattern stands first.
std::string best_of_all_words(const Lattice& lattice) {
  const std::size_t words = lattice.tokens.size() - 1;  // without "Good"
  const Reading* best = nullptr;
  for (const Reading& r : lattice.readings) {
    if (!r.strong || r.first != 0 || r.last != words) continue;
    if (best == nullptr || r.best < best->best) best = &r;
  }
  return best == nullptr ? "nothing" : dump(*best);
}

std::string strong_readings(const Lattice& lattice) {
  std::string s;
  for (const Reading& r : lattice.readings) {
    if (!r.strong) continue;
    if (!s.empty()) s += ", ";
    for (std::size_t t = r.first; t < r.last; ++t) s += lattice.tokens[t].norm + ' ';
    s += "= " + dump(r);
  }
  return s.empty() ? "talk" : s;
}

TEST(SpokenMoves, EveryExampleOfThePageIsReadAsItSays) {
  const auto rows = examples();
  EXPECT_GE(rows.size(), 60u);
  for (const Example& row : rows) {
    const Lattice lattice = heard(row.phrase);
    const std::string found =
        row.meaning == "talk" ? strong_readings(lattice) : best_of_all_words(lattice);
    EXPECT_EQ(found, row.meaning) << kPage << ":" << row.line << ", " << row.section << ": \""
                                  << row.phrase << '"';
  }
}

}  // namespace
}  // namespace plyscribe::hearing
