#include "hearing/ear.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <utility>

#include "grammar/grammar.h"
#include "hearing/ear_sounds.h"
#include "hearing/units.h"
#include "lexicon/channel.h"

namespace plyscribe::hearing {
namespace {

using grammar::Unit;

constexpr float kUnseen = 6.0F;     // nats above the best: values that nothing speaks for
constexpr float kInside = 0.6F;     // a unit begins or ends inside a word
constexpr float kSplit = 0.2F;      // file and rank meet inside a word
constexpr float kChessWord = 3.0F;  // background of a chess word, at most
constexpr float kLittleWord =
    1.5F;  // ... of a word like "goes" or "with", which costs a move nothing

// What must be gained over ordinary talk, in nats, for an arc to be kept.
constexpr float kGainPiece = -1.0F;
constexpr float kGainFile = 0.5F;
constexpr float kGainRank = 0.5F;
constexpr float kGainTo = -1.5F;
constexpr float kGainLost = -1.0F;
constexpr float kGainWord = 1.0F;
constexpr float kUncommon = 7.5F;       // background of a word that may stand for a piece there
constexpr float kWritesSquares = 4.0F;  // dictation would have written the square
constexpr float kWritesLetters = 2.0F;  // ... but for letter and digit as words it is not sure of
constexpr float kDearest = 9.5F;

float lowest(std::span<const float> costs) { return *std::min_element(costs.begin(), costs.end()); }

// Turns sounds into units: an arc for every stretch that is worth more as a piece, a square or a
// verb than as ordinary talk.
class Ear {
 public:
  Ear(const std::vector<Token>& tokens, Script script, UnitGraph& g)
      : s_(tokens, script), tokens_(tokens), g_(g) {
    g_.node_of_token = s_.node_of_token;
    g_.token_at_node = s_.token_at_node;
    g_.arcs.resize(s_.phones.size() + 1);
  }

  void run() {
    reached_.assign(s_.phones.size() + 1, 0);
    for (std::size_t node = 0; node < s_.phones.size(); ++node) {
      const bool begins = g_.token_at_node[node] >= 0;
      if (!begins && reached_[node] == 0) continue;
      if (s_.phones[node] == kNoPhone) continue;
      squares(node);
      if (s_.spoken) lost_files(node);
      if (begins) {
        pieces(node);
        letters(node, Unit::kFile, kFirstFile, kGainFile);
        letters(node, Unit::kRank, kFirstRank, kGainRank);
      }
      words(node);
    }
  }

 private:
  bool worth(std::size_t from, std::size_t to, float cost, float gain) const {
    return cost <= kDearest && cost <= s_.background(from, to) - gain;
  }

  void add(std::size_t from, std::size_t to, Unit unit, std::vector<float> costs, float extra,
           char value = 0) {
    UnitArc arc;
    arc.unit = unit;
    arc.to = static_cast<std::uint32_t>(to);
    arc.by_ear = true;
    arc.value = value;
    arc.cost = extra;
    if (!costs.empty()) {
      const float least = lowest(costs);
      for (float& c : costs) {
        if (c < kNever / 2 || unit != Unit::kPiece) c = std::min(c - least, kUnseen);
      }
      arc.cost += least;
      arc.costs = static_cast<std::uint32_t>(g_.vectors.size());
      g_.vectors.push_back(std::move(costs));
    }
    g_.arcs[from].push_back(arc);
    reached_[to] = 1;
  }

  float inside(std::size_t from, std::size_t to) const {
    return (s_.edge(from) ? 0.0F : kInside) + (s_.edge(to) ? 0.0F : kInside);
  }

  // In dictation: one word, no common one, and a square or "takes" behind it unless it sounds
  // alike.
  bool piece_in_writing(std::size_t node, std::size_t to, float cost) const {
    const std::size_t next = s_.edge(to) ? s_.token_of[to] : s_.token_of[to] + 1;
    if (next != s_.token_of[node] + 1 || next > tokens_.size()) return false;
    if (!s_.edge(to)) {  // "rookie one"
      return cost <= 0.8F && next < tokens_.size() && !s_.wall[g_.node_of_token[next]] &&
             s_.exact[next].rank >= 0;
    }
    if (cost <= 1.0F) return true;
    if (next >= tokens_.size() || s_.wall[to]) return false;
    if (s_.background(node, to) < kUncommon && cost > 3.0F) return false;
    return s_.exact[next].takes || has_digit(tokens_[next].raw);
  }

  void pieces(std::size_t node) {
    const Sounds& here = s_.at[node];
    for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
      const std::size_t to = node + n;
      std::vector<float> costs(7, kNever);
      for (std::size_t p = 1; p < 7; ++p) costs[p] = here[p][n];
      const float least = lowest(costs);
      if (least >= kNever / 2) continue;
      if (const Exact* e = s_.exact_over(node, to); e != nullptr && e->any()) continue;
      const float extra = inside(node, to);
      if (!worth(node, to, least + extra, kGainPiece)) continue;
      if (!s_.spoken && !piece_in_writing(node, to, least)) continue;
      for (std::size_t p = 1; p < 7; ++p) costs[p] = std::min(costs[p], least + kUnseen);
      const bool pawn = costs[1] <= least + 1.0F;
      add(node, to, Unit::kPiece, costs, extra, pawn ? 'P' : 0);
    }
  }

  void letters(std::size_t node, Unit unit, std::size_t row, float gain) {
    const Sounds& here = s_.at[node];
    for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
      const std::size_t to = node + n;
      if (!s_.edge(to)) continue;
      std::vector<float> costs(8, kNever);
      for (std::size_t i = 0; i < 8; ++i) costs[i] = here[row + i][n];
      const float least = lowest(costs);
      if (!worth(node, to, least, gain)) continue;
      if (const Exact* e = s_.exact_over(node, to); e != nullptr && e->any()) continue;
      // A lone letter means something only before "takes" or "pawn"; a digit after a piece.
      const std::size_t next = s_.token_of[to];
      if (unit == Unit::kFile) {
        const bool chess = next < tokens_.size() && (s_.exact[next].takes || s_.exact[next].piece);
        if (!s_.spoken && (!chess || !s_.exact[next].takes || least > 1.5F)) continue;
      } else if (!s_.spoken) {
        continue;
      }
      add(node, to, unit, costs, 0);
    }
  }

  void squares(std::size_t node) {
    const Sounds& files = s_.at[node];
    std::array<float, kSpan + 1> least_file;
    least_file.fill(kNever);
    for (std::size_t f = kFirstFile; f < kFirstRank; ++f) {
      for (std::size_t n = 1; n <= kSpan; ++n) least_file[n] = std::min(least_file[n], files[f][n]);
    }
    const auto seen =
        std::lower_bound(s_.seen_squares.begin(), s_.seen_squares.end(), node,
                         [](const EarSounds::SeenSquare& a, std::size_t b) { return a.node < b; });
    for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
      const std::size_t to = node + n;
      if (!s_.edge(to)) continue;
      const std::size_t first = s_.token_of[node];
      const std::size_t last = s_.token_of[to];
      if (s_.edge(node) && last == first + 2 && s_.exact[first].file >= 0 &&
          s_.exact[first + 1].rank >= 0)
        continue;
      const float limit = std::min(kDearest, s_.background(node, to) - kGainTo);
      std::vector<float> costs(64, kNever);
      for (std::size_t m = 1; m < n; ++m) {
        if (least_file[m] > limit) continue;
        const float split = s_.edge(node + m) ? 0.0F : kSplit;
        for (std::size_t r = 0; r < 8; ++r) {
          const float rank = s_.at[node + m][kFirstRank + r][n - m] + split;
          if (rank + least_file[m] > limit) continue;
          for (std::size_t f = 0; f < 8; ++f) {
            float& cost = costs[r * 8 + f];
            cost = std::min(cost, rank + files[kFirstFile + f][m]);
          }
        }
      }
      for (auto s = seen; s != s_.seen_squares.end() && s->node == node; ++s) {
        if (s->span == n) costs[s->square] = std::min(costs[s->square], s->cost);
      }
      const float least = lowest(costs);
      const float extra = inside(node, to);
      if (!worth(node, to, least + extra, kGainTo)) continue;
      float written_down = 0;
      if (!s_.spoken) {
        const bool due = !s_.edge(node) || s_.after_chess_word(node);
        if (least > (due ? 6.0F : 4.5F)) continue;
        written_down = 1;
        bool common = true;
        for (std::size_t t = first; t < last; ++t) {
          if (s_.exact[t].file >= 0 || s_.exact[t].rank >= 0) common = false;
        }
        if (common && !due) written_down = last == first + 1 ? kWritesSquares : kWritesLetters;
      }
      add(node, to, Unit::kTo, costs, extra + written_down);
    }
  }

  // "bishop [g] five": the letter was not heard. Only where a square is due.
  void lost_files(std::size_t node) {
    if (!s_.edge(node) || (!s_.after_chess_word(node) && reached_[node] == 0)) return;
    const Sounds& here = s_.at[node];
    for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
      if (!s_.edge(node + n)) continue;
      std::vector<float> costs(64, kNever);
      for (std::size_t r = 0; r < 8; ++r) {
        for (std::size_t f = 0; f < 8; ++f) costs[r * 8 + f] = here[kFirstRank + r][n] + s_.lost[f];
      }
      if (lowest(costs) > s_.background(node, node + n) - kGainLost) continue;
      add(node, node + n, Unit::kTo, costs, 0);
    }
  }

  void words(std::size_t node) {
    const auto one = [&](std::size_t row, Unit unit, float gain, bool inner_only) {
      for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
        const float cost = s_.at[node][row][n];
        if (cost >= kNever / 2) continue;
        const std::size_t to = node + n;
        const float extra = inside(node, to);
        if (!worth(node, to, cost + extra, gain)) continue;
        if (const Exact* e = s_.exact_over(node, to); e != nullptr && (e->any() || e->go)) {
          continue;
        }
        if (inner_only && s_.edge(node) && s_.edge(to) && s_.token_of[to] != s_.token_of[node] + 1)
          continue;
        add(node, to, unit, {}, cost + extra);
      }
    };
    if (!s_.spoken) return;
    one(kTakes, Unit::kTakes, kGainWord, false);
    one(kCheck, Unit::kCheck, kGainWord, false);
    one(kCastles, Unit::kCastle, kGainWord, false);
    for (std::size_t row = kCastling; row < kSaid.size(); ++row) {
      one(row, Unit::kCastle, kGainWord, false);
    }
    if (reached_[node] != 0) {
      one(kTo, Unit::kGo, 0, true);
      one(kOn, Unit::kGo, 0, true);
    }
  }

  const EarSounds s_;
  const std::vector<Token>& tokens_;
  UnitGraph& g_;
  std::vector<char> reached_;  // by node: some unit ends there
};

}  // namespace

std::vector<float> token_backgrounds(const std::vector<Token>& tokens) {
  std::vector<float> out;
  out.reserve(tokens.size());
  for (const Token& t : tokens) {
    float cost = lexicon::background_cost(t.norm);
    if (exact_of(t).any()) {
      cost = std::min(cost, kChessWord);
    } else if (!grammar::grammar().vocabulary(t.norm).empty()) {
      cost = std::min(cost, kLittleWord);
    }
    out.push_back(cost);
  }
  return out;
}

void split_tens(std::vector<Token>& tokens) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 7> tens = {
      {{"thirty", "three"},
       {"forty", "four"},
       {"fifty", "five"},
       {"sixty", "six"},
       {"seventy", "seven"},
       {"eighty", "eight"},
       {"ninety", "nine"}}};
  std::vector<Token> out;
  out.reserve(tokens.size() + tokens.size() / 8);
  for (std::size_t t = 0; t < tokens.size(); ++t) {
    Token& token = tokens[t];
    const auto ten = std::find_if(tens.begin(), tens.end(),
                                  [&](const auto& pair) { return pair.first == token.norm; });
    if (ten == tens.end() || !token.mark.empty() || t + 1 == tokens.size()) {
      out.push_back(std::move(token));
      continue;
    }
    Token rest = token;
    rest.opens_paragraph = false;
    rest.pause = 0;
    rest.norm = rest.raw = "t";
    token.norm = token.raw = ten->second;
    out.push_back(std::move(token));
    out.push_back(std::move(rest));
  }
  tokens = std::move(out);
}

void add_units_by_ear(const std::vector<Token>& tokens, Script script, UnitGraph& graph) {
  Ear(tokens, script, graph).run();
}

}  // namespace plyscribe::hearing
