#include "hearing/lattice.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <tuple>

#include "grammar/grammar.h"
#include "hearing/ear.h"
#include "hearing/matcher.h"
#include "hearing/second_guesses.h"

namespace plyscribe::hearing {
namespace {

constexpr float kWorstGain = 1.0F;  // by ear: best may exceed the cost as ordinary talk by this
constexpr float kStrong = 4.0F;     // by ear: nats better than ordinary talk
constexpr float kStrongSquare = 6.5F;
constexpr float kNear = 5.0F;        // nats
constexpr std::size_t kPerSpan = 3;  // readings of one pattern over the same tokens

Script script_of(const std::vector<Token>& tokens) {
  std::size_t squares = 0;
  for (const Token& t : tokens) {
    if (t.norm.size() >= 2 && t.norm.back() >= '1' && t.norm.back() <= '8' &&
        std::isalpha(static_cast<unsigned char>(t.norm[t.norm.size() - 2])) != 0) {
      ++squares;
    }
  }
  return squares * 100 >= tokens.size() ? Script::kWritten : Script::kSpokenWords;
}

bool is_strong(const Reading& r, Script script) {
  const std::string& pattern = grammar::grammar().patterns()[r.pattern].name;
  // Dictation writes a square down; little words that only sound near one seldom are.
  if (r.by_ear && script == Script::kWritten && pattern == "to" && r.best > kNear) return false;
  // Heard in other words, a bare square is the likeliest to be no move at all.
  if (r.by_ear && r.background - r.best < (pattern == "to" ? kStrongSquare : kStrong)) return false;
  if (r.best > 3.0F && !r.by_ear) return false;
  return r.has_to || r.castle != 0 || r.takes || pattern == "with-piece" || pattern == "with-file";
}

// The best non-overlapping choice of strong readings: longer and cheaper is better.
void choose_primary(Lattice& lattice) {
  const std::size_t n = lattice.tokens.size();
  std::vector<float> value(n + 1, 0);
  std::vector<std::int32_t> chosen(n + 1, -1);  // reading that begins here
  for (std::size_t t = n; t-- > 0;) {
    value[t] = value[t + 1];
    for (std::uint32_t i = lattice.first_at[t]; i < lattice.first_at[t + 1]; ++i) {
      const Reading& r = lattice.readings[i];
      if (!r.strong) continue;
      const float gain = (r.has_to || r.castle != 0 ? 3.0F : 1.5F) + (r.has_piece ? 0.6F : 0.0F) +
                         0.4F * static_cast<float>(r.last - r.first) - 0.5F * r.best +
                         value[r.last];
      if (gain > value[t]) {
        value[t] = gain;
        chosen[t] = static_cast<std::int32_t>(i);
      }
    }
  }
  lattice.primary_at.assign(n + 1, -1);
  for (std::size_t t = 0; t < n;) {
    if (chosen[t] < 0) {
      ++t;
      continue;
    }
    const Reading& r = lattice.readings[static_cast<std::size_t>(chosen[t])];
    for (std::size_t i = r.first; i < r.last; ++i) {
      lattice.primary_at[i] = static_cast<std::int32_t>(lattice.primary.size());
    }
    lattice.primary.push_back(static_cast<std::uint32_t>(chosen[t]));
    t = r.last;
  }
}

}  // namespace

Lattice build_lattice(const transcript::Transcript& t) {
  Lattice lattice;
  lattice.tokens = tokens_of(t);
  lattice.script = script_of(lattice.tokens);
  if (lattice.script == Script::kSpokenWords) split_tens(lattice.tokens);
  std::vector<Reading> found = read_tokens(lattice.tokens, lattice.script);
  for (Reading& r : second_guesses(t, lattice.tokens, lattice.script)) found.push_back(r);
  std::vector<float> talk = {0};  // cost of the tokens before each as ordinary talk
  for (const float cost : token_backgrounds(lattice.tokens)) talk.push_back(talk.back() + cost);
  for (Reading& r : found) r.background = talk[r.last] - talk[r.first];
  std::erase_if(found,
                [](const Reading& r) { return r.by_ear && r.best > r.background + kWorstGain; });
  std::stable_sort(found.begin(), found.end(), [](const Reading& a, const Reading& b) {
    return std::tie(a.first, a.last, a.pattern, a.best) <
           std::tie(b.first, b.last, b.pattern, b.best);
  });
  std::size_t same = 0;
  for (const Reading& r : found) {
    if (!lattice.readings.empty()) {
      const Reading& last = lattice.readings.back();
      const bool same_span =
          last.first == r.first && last.last == r.last && last.pattern == r.pattern;
      same = same_span ? same + 1 : 0;
      if (same >= kPerSpan) continue;
    }
    lattice.readings.push_back(r);
    lattice.readings.back().strong = is_strong(r, lattice.script);
  }
  lattice.first_at.assign(lattice.tokens.size() + 1, 0);
  for (const Reading& r : lattice.readings) ++lattice.first_at[r.first + 1];
  for (std::size_t i = 1; i < lattice.first_at.size(); ++i) {
    lattice.first_at[i] += lattice.first_at[i - 1];
  }
  choose_primary(lattice);
  return lattice;
}

}  // namespace plyscribe::hearing
