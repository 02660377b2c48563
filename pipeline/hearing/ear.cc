#include "hearing/ear.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include "grammar/grammar.h"
#include "hearing/units.h"
#include "lexicon/channel.h"
#include "lexicon/pronounce.h"

namespace plyscribe::hearing {
namespace {

using grammar::Unit;
using lexicon::Phone;
using lexicon::Phones;

constexpr std::size_t kSpan = 15;       // phones a unit or square may cover
constexpr std::size_t kWords = 3;       // words the table of hearings knows together
constexpr float kUnseen = 6.0F;         // nats above the best: values that nothing speaks for
constexpr float kInside = 0.6F;         // a unit begins or ends inside a word
constexpr float kSplit = 0.2F;          // file and rank meet inside a word
constexpr float kByPhones = 1.0F;       // no word was ever heard so, but the sounds are near
constexpr float kLeastByPhones = 2.2F;  // ... and never less than this
constexpr float kChessWord = 3.0F;      // background of a chess word, at most
constexpr float kFar = 7.0F;            // sounds further off, over the unit's own cost, are not tried
constexpr float kFarCastles = 9.0F;     // ... of a long word
constexpr float kFarWritten = 3.0F;     // ... of a dictation recogniser
constexpr float kFarWrittenFile = 4.5F;  // ... where a square is due
constexpr float kFarWrittenPiece = 5.0F;
constexpr float kHomophone = 0.4F;      // not the word of the table, but its sound
constexpr float kLittleWord = 1.5F;     // ... of a word like "goes" or "with", which costs a move nothing
constexpr float kOtherWord = 1.0F;      // castling, heard as another word
constexpr float kExact = 0.3F;          // a letter or digit of a square that is spelled right

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

// The words that moves are made of, in one row: pieces, files, ranks, verbs.
constexpr std::array<std::string_view, 33> kSaid = {
    "", "pawn", "knight", "bishop", "rook", "queen", "king",  // by PieceType
    "a", "b", "c", "d", "e", "f", "g", "h",                   //
    "1", "2", "3", "4", "5", "6", "7", "8",                   //
    "takes", "check", "castles", "to", "on", "castling", "castle",
    "cancel", "canceling", "catsels"};  // what castling is mostly heard as
constexpr std::size_t kFirstFile = 7, kFirstRank = 15, kTakes = 23, kCheck = 24, kCastles = 25,
                      kTo = 26, kOn = 27, kCastling = 28, kCastle = 29;

std::optional<std::size_t> row_of(std::string_view unit) {
  if (unit == "captures") return kTakes;
  const auto at = std::find(kSaid.begin() + 1, kSaid.end(), unit);
  if (at == kSaid.end()) return std::nullopt;
  return static_cast<std::size_t>(at - kSaid.begin());
}

using Ends = std::array<float, kSpan + 1>;        // cost by number of phones covered
using Sounds = std::array<Ends, kSaid.size()>;  // by row of kSaid

// Squares in one word that every recogniser falls for.
struct Fused {
  std::string_view word, square;
  float cost;
};
constexpr std::array<Fused, 5> kFused = {{{"before", "b4", 0.7F},
                                          {"before", "e4", 2.0F},
                                          {"defy", "d5", 1.0F},
                                          {"fate", "f8", 1.0F},
                                          {"beefy", "b5", 1.0F}}};

constexpr Phone kNoPhone = 255;

struct Exact {
  bool piece = false, takes = false, check = false, castle = false, go = false;
  int file = -1, rank = -1;
  bool any() const { return piece || takes || check || castle || file >= 0 || rank >= 0; }
};

Exact exact_of(const Token& t) {
  Exact out;
  for (const auto& entry : grammar::grammar().vocabulary(t.norm)) {
    switch (entry.unit) {
      case Unit::kPiece: out.piece = true; break;
      case Unit::kTakes: out.takes = true; break;
      case Unit::kCheck:
      case Unit::kMate: out.check = true; break;
      case Unit::kCastle: out.castle = true; break;
      case Unit::kGo: out.go = true; break;
      case Unit::kRank: out.rank = entry.value - '1'; break;
      default: break;
    }
  }
  if (t.norm.size() == 1) {
    const char c = t.norm[0];
    if (c >= 'b' && c <= 'h') out.file = c - 'a';
    if (t.raw == "A") out.file = 0;
    if (c >= '1' && c <= '8') out.rank = c - '1';
  }
  return out;
}

bool has_digit(std::string_view s) {
  return std::any_of(s.begin(), s.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// The hearings of the table by their phones: "nine" is a knight also within "ninety".
class HearingTrie {
 public:
  struct Node {
    std::array<std::int32_t, lexicon::kPhoneCount> next;
    std::vector<const lexicon::Hearing*> here;
    Node() { next.fill(-1); }
  };

  HearingTrie() {
    nodes_.emplace_back();
    for (const lexicon::Hearing& h : lexicon::all_hearings()) {
      if (h.heard.empty() || h.unit_count > 2) continue;
      Phones phones;
      for (std::string_view rest = h.heard; !rest.empty();) {
        const std::size_t blank = std::min(rest.find(' '), rest.size());
        const auto ways = lexicon::pronounce(rest.substr(0, blank));
        if (!ways.empty()) phones.insert(phones.end(), ways.front().begin(), ways.front().end());
        rest.remove_prefix(std::min(blank + 1, rest.size()));
      }
      if (phones.empty() || phones.size() > kSpan) continue;
      std::int32_t at = 0;
      for (const Phone p : phones) {
        std::int32_t next = nodes_[static_cast<std::size_t>(at)].next[p];
        if (next < 0) {
          next = static_cast<std::int32_t>(nodes_.size());
          nodes_[static_cast<std::size_t>(at)].next[p] = next;
          nodes_.emplace_back();
        }
        at = next;
      }
      nodes_[static_cast<std::size_t>(at)].here.push_back(&h);
    }
  }

  const Node& root() const { return nodes_[0]; }
  const Node* next(const Node& n, Phone p) const {
    return n.next[p] < 0 ? nullptr : &nodes_[static_cast<std::size_t>(n.next[p])];
  }

 private:
  std::vector<Node> nodes_;
};

const HearingTrie& hearing_trie() {
  static const HearingTrie trie;
  return trie;
}

float lowest(std::span<const float> costs) { return *std::min_element(costs.begin(), costs.end()); }

class Ear {
 public:
  Ear(const std::vector<Token>& tokens, Script script, UnitGraph& g)
      : tokens_(tokens), spoken_(script == Script::kSpokenWords), g_(g) {
    for (std::size_t row = 1; row < kSaid.size(); ++row) {
      said_[row] = lexicon::pronounce(kSaid[row]).front();
    }
    for (std::size_t u = 0; u < lexicon::unit_count(); ++u) {
      row_.push_back(row_of(lexicon::unit_name(static_cast<lexicon::Unit>(u))));
    }
    lost_.fill(4.0F);
    for (const lexicon::Hearing& h : lexicon::heard_as("")) {
      const auto row = row_[h.units[0]];
      if (h.unit_count == 1 && row && *row >= kFirstFile && *row < kFirstRank)
        lost_[*row - kFirstFile] = h.cost;
    }
    for (const Token& t : tokens) exact_.push_back(exact_of(t));
    lay_out();
  }

  void run() {
    for (std::size_t node = 0; node < phones_.size(); ++node) {
      by_phones(node);
      by_sound_of_table(node);
      if (g_.token_at_node[node] >= 0) by_table(node);
    }
    reached_.assign(phones_.size() + 1, 0);
    for (std::size_t node = 0; node < phones_.size(); ++node) {
      const bool begins = g_.token_at_node[node] >= 0;
      if (!begins && reached_[node] == 0) continue;
      if (phones_[node] == kNoPhone) continue;
      squares(node);
      if (spoken_) lost_files(node);
      if (begins) {
        pieces(node);
        letters(node, Unit::kFile, kFirstFile, kGainFile);
        letters(node, Unit::kRank, kFirstRank, kGainRank);
      }
      words(node);
    }
  }

 private:
  void lay_out() {
    const std::vector<float> background = token_backgrounds(tokens_);
    background_.push_back(0);
    for (std::size_t t = 0; t < tokens_.size(); ++t) {
      g_.node_of_token.push_back(static_cast<std::uint32_t>(phones_.size()));
      Phones phones;
      if (!has_digit(tokens_[t].raw) || exact_[t].rank >= 0) {
        const auto ways = lexicon::pronounce(tokens_[t].norm);
        if (!ways.empty()) phones = ways.front();
      }
      if (phones.empty()) phones.push_back(kNoPhone);
      for (std::size_t i = 0; i < phones.size(); ++i) {
        phones_.push_back(phones[i]);
        g_.token_at_node.push_back(i == 0 ? static_cast<std::int32_t>(t) : -1);
        wall_.push_back(i == 0 && t > 0 && !tokens_[t - 1].mark.empty());
        background_.push_back(background_.back() +
                              background[t] / static_cast<float>(phones.size()));
        token_of_.push_back(t);
      }
    }
    token_of_.push_back(tokens_.size());
    wall_.push_back(true);
    g_.node_of_token.push_back(static_cast<std::uint32_t>(phones_.size()));
    g_.token_at_node.push_back(static_cast<std::int32_t>(tokens_.size()));
    g_.arcs.resize(phones_.size() + 1);
    Ends never;
    never.fill(kNever);
    Sounds none;
    none.fill(never);
    sounds_.assign(phones_.size() + 1, none);
  }

  // Phones from node that one unit may cover.
  std::size_t reach(std::size_t node) const {
    std::size_t n = 0;
    while (n < kSpan && node + n < phones_.size() && phones_[node + n] != kNoPhone &&
           (n == 0 || !wall_[node + n])) {
      ++n;
    }
    return n;
  }

  bool edge(std::size_t node) const { return g_.token_at_node[node] >= 0; }

  void by_phones(std::size_t node) {
    const std::size_t most = reach(node);
    if (most == 0) return;
    const bool is_due = !spoken_ && edge(node) && after_chess_word(node);
    const lexicon::PhoneCosts& c = lexicon::phone_costs();
    // Pieces and castling begin with a word; verbs are asked for in spoken words only.
    const std::size_t first_row = edge(node) ? 1 : kFirstFile;
    const std::size_t last_row = !spoken_ ? kTakes : edge(node) ? kSaid.size() : kCastling;
    for (std::size_t row = first_row; row < last_row; ++row) {
      const Phones& said = said_[row];
      const std::size_t n = std::min(most, said.size() + 3);
      std::array<float, kSpan + 1> costs{};
      for (std::size_t j = 0; j < n; ++j) costs[j + 1] = costs[j] + c.put_in[phones_[node + j]];
      float own = 0;
      for (const Phone s : said) {
        own += c.as[s][s];
        float diagonal = costs[0];
        costs[0] += c.lost[s];
        for (std::size_t j = 0; j < n; ++j) {
          const float as = diagonal + c.as[s][phones_[node + j]];
          diagonal = costs[j + 1];
          costs[j + 1] =
              std::min({as, diagonal + c.lost[s], costs[j] + c.put_in[phones_[node + j]]});
        }
      }
      for (std::size_t j = 1; j <= n; ++j) {
        const float over = costs[j] - own;
        if (spoken_) {
          if (over > (row == kCastles || row >= kCastling ? kFarCastles : kFar)) continue;
          sounds_[node][row][j] =
              std::max(costs[j] + kByPhones, kLeastByPhones) + (row > kCastle ? kOtherWord : 0);
        } else if (over <= (row < kFirstFile              ? kFarWrittenPiece
                            : row < kFirstRank && is_due ? kFarWrittenFile
                                                          : kFarWritten)) {
          sounds_[node][row][j] = 0.5F + over;
        }
      }
    }
  }

  void hear(std::size_t node, std::size_t span, const lexicon::Hearing& h, float extra) {
    const auto units = h.said();
    const auto a = row_[units[0]];
    if (!a) return;
    if (units.size() == 1) {

      float& cost = sounds_[node][*a][span];
      cost = std::min(cost, h.cost + extra);
    } else if (units.size() == 2 && *a >= kFirstFile && *a < kFirstRank) {
      const auto b = row_[units[1]];
      if (!b || *b < kFirstRank || *b >= kTakes) return;
      seen_squares_.push_back({node, span, (*b - kFirstRank) * 8 + *a - kFirstFile, h.cost + extra});
    }
  }

  // Sounds that are known as those of other words.
  void by_sound_of_table(std::size_t node) {
    const HearingTrie& trie = hearing_trie();
    const std::size_t most = reach(node);
    const HearingTrie::Node* at = &trie.root();
    for (std::size_t n = 0; n < most && at != nullptr;) {
      at = trie.next(*at, phones_[node + n]);
      ++n;
      if (at == nullptr) break;
      if (n < 2 || (!spoken_ && (!edge(node) || !edge(node + n)))) continue;
      for (const lexicon::Hearing* h : at->here) hear(node, n, *h, kHomophone);
    }
  }

  // What whole words were heard for.
  void by_table(std::size_t node) {
    const auto first = static_cast<std::size_t>(g_.token_at_node[node]);
    std::string phrase;
    for (std::size_t n = 0; n < kWords && first + n < tokens_.size(); ++n) {
      if (n > 0) {
        if (!tokens_[first + n - 1].mark.empty()) break;
        phrase.push_back(' ');
      }
      phrase += tokens_[first + n].norm;
      const std::size_t span = g_.node_of_token[first + n + 1] - node;
      if (span > kSpan) break;
      for (const lexicon::Hearing& h : lexicon::heard_as(phrase)) hear(node, span, h, 0);
    }
    for (const auto& [word, square, cost] : kFused) {
      if (tokens_[first].norm != word) continue;
      const std::size_t at = static_cast<std::size_t>((square[1] - '1') * 8 + square[0] - 'a');
      seen_squares_.push_back({node, g_.node_of_token[first + 1] - node, at, cost});
    }
    // Letters and digits that are spelled right.
    const std::size_t span = g_.node_of_token[first + 1] - node;
    if (exact_[first].file >= 0) {
      float& cost = sounds_[node][kFirstFile + static_cast<std::size_t>(exact_[first].file)][span];
      cost = std::min(cost, kExact);
    }
    if (exact_[first].rank >= 0) {
      float& cost = sounds_[node][kFirstRank + static_cast<std::size_t>(exact_[first].rank)][span];
      cost = std::min(cost, kExact);
    }
  }

  float background(std::size_t from, std::size_t to) const { return background_[to] - background_[from]; }

  bool worth(std::size_t from, std::size_t to, float cost, float gain) const {
    return cost <= kDearest && cost <= background(from, to) - gain;
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

  // One token, spelled exactly.
  const Exact* exact_over(std::size_t from, std::size_t to) const {
    if (!edge(from) || !edge(to) || token_of_[to] != token_of_[from] + 1) return nullptr;
    return &exact_[token_of_[from]];
  }

  float inside(std::size_t from, std::size_t to) const {
    return (edge(from) ? 0.0F : kInside) + (edge(to) ? 0.0F : kInside);
  }

  // An exact piece, takes, or one of them and a little word stands before the node.
  bool after_chess_word(std::size_t node) const {
    std::size_t t = token_of_[node];
    if (t == 0 || !tokens_[t - 1].mark.empty()) return false;
    if (exact_[t - 1].piece || exact_[t - 1].takes) return true;
    return exact_[t - 1].go && t >= 2 && tokens_[t - 2].mark.empty() &&
           (exact_[t - 2].piece || exact_[t - 2].takes);
  }

  // In dictation: one word, no common one, and a square or "takes" behind it unless it sounds alike.
  bool piece_in_writing(std::size_t node, std::size_t to, float cost) const {
    const std::size_t next = edge(to) ? token_of_[to] : token_of_[to] + 1;
    if (next != token_of_[node] + 1 || next > tokens_.size()) return false;
    if (!edge(to)) {  // "rookie one"
      return cost <= 0.8F && next < tokens_.size() && !wall_[g_.node_of_token[next]] &&
             exact_[next].rank >= 0;
    }
    if (cost <= 1.0F) return true;
    if (next >= tokens_.size() || wall_[to]) return false;
    if (background(node, to) < kUncommon && cost > 3.0F) return false;
    return exact_[next].takes || has_digit(tokens_[next].raw);
  }

  void pieces(std::size_t node) {
    const Sounds& s = sounds_[node];
    for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
      const std::size_t to = node + n;
      std::vector<float> costs(7, kNever);
      for (std::size_t p = 1; p < 7; ++p) costs[p] = s[p][n];
      const float least = lowest(costs);
      if (least >= kNever / 2) continue;
      if (const Exact* e = exact_over(node, to); e != nullptr && e->any()) continue;
      const float extra = inside(node, to);
      if (!worth(node, to, least + extra, kGainPiece)) continue;
      if (!spoken_ && !piece_in_writing(node, to, least)) continue;
      for (std::size_t p = 1; p < 7; ++p) costs[p] = std::min(costs[p], least + kUnseen);
      const bool pawn = costs[1] <= least + 1.0F;
      add(node, to, Unit::kPiece, costs, extra, pawn ? 'P' : 0);
    }
  }

  void letters(std::size_t node, Unit unit, std::size_t row, float gain) {
    const Sounds& s = sounds_[node];
    for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
      const std::size_t to = node + n;
      if (!edge(to)) continue;
      std::vector<float> costs(8, kNever);
      for (std::size_t i = 0; i < 8; ++i) costs[i] = s[row + i][n];
      const float least = lowest(costs);
      if (!worth(node, to, least, gain)) continue;
      if (const Exact* e = exact_over(node, to); e != nullptr && e->any()) continue;
      // A lone letter means something only before "takes" or "pawn"; a digit after a piece.
      const std::size_t next = token_of_[to];
      if (unit == Unit::kFile) {
        const bool chess = next < tokens_.size() && (exact_[next].takes || exact_[next].piece);
        if (!spoken_ && (!chess || !exact_[next].takes || least > 1.5F)) continue;
      } else if (!spoken_) {
        continue;
      }
      add(node, to, unit, costs, 0);
    }
  }

  void squares(std::size_t node) {
    const Sounds& files = sounds_[node];
    std::array<float, kSpan + 1> least_file;
    least_file.fill(kNever);
    for (std::size_t f = kFirstFile; f < kFirstRank; ++f) {
      for (std::size_t n = 1; n <= kSpan; ++n) least_file[n] = std::min(least_file[n], files[f][n]);
    }
    const auto seen = std::lower_bound(
        seen_squares_.begin(), seen_squares_.end(), node,
        [](const SeenSquare& a, std::size_t b) { return a.node < b; });
    for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
      const std::size_t to = node + n;
      if (!edge(to)) continue;
      const std::size_t first = token_of_[node];
      const std::size_t last = token_of_[to];
      if (edge(node) && last == first + 2 && exact_[first].file >= 0 && exact_[first + 1].rank >= 0)
        continue;
      const float limit = std::min(kDearest, background(node, to) - kGainTo);
      std::vector<float> costs(64, kNever);
      for (std::size_t m = 1; m < n; ++m) {
        if (least_file[m] > limit) continue;
        const float split = edge(node + m) ? 0.0F : kSplit;
        for (std::size_t r = 0; r < 8; ++r) {
          const float rank = sounds_[node + m][kFirstRank + r][n - m] + split;
          if (rank + least_file[m] > limit) continue;
          for (std::size_t f = 0; f < 8; ++f) {
            float& cost = costs[r * 8 + f];
            cost = std::min(cost, rank + files[kFirstFile + f][m]);
          }
        }
      }
      for (auto s = seen; s != seen_squares_.end() && s->node == node; ++s) {
        if (s->span == n) costs[s->square] = std::min(costs[s->square], s->cost);
      }
      const float least = lowest(costs);
      const float extra = inside(node, to);
      if (!worth(node, to, least + extra, kGainTo)) continue;
      float written_down = 0;
      if (!spoken_) {
        const bool due = !edge(node) || after_chess_word(node);
        if (least > (due ? 6.0F : 4.5F)) continue;
        written_down = 1;
        bool common = true;
        for (std::size_t t = first; t < last; ++t) {
          if (exact_[t].file >= 0 || exact_[t].rank >= 0) common = false;
        }
        if (common && !due) written_down = last == first + 1 ? kWritesSquares : kWritesLetters;
      }
      add(node, to, Unit::kTo, costs, extra + written_down);
    }
  }

  // "bishop [g] five": the letter was not heard. Only where a square is due.
  void lost_files(std::size_t node) {
    if (!edge(node) || (!after_chess_word(node) && reached_[node] == 0)) return;
    const Sounds& s = sounds_[node];
    for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
      if (!edge(node + n)) continue;
      std::vector<float> costs(64, kNever);
      for (std::size_t r = 0; r < 8; ++r) {
        for (std::size_t f = 0; f < 8; ++f) costs[r * 8 + f] = s[kFirstRank + r][n] + lost_[f];
      }
      if (lowest(costs) > background(node, node + n) - kGainLost) continue;
      add(node, node + n, Unit::kTo, costs, 0);
    }
  }

  void words(std::size_t node) {
    const auto one = [&](std::size_t row, Unit unit, float gain, bool inner_only) {
      for (std::size_t n = 1; n <= kSpan && node + n < g_.token_at_node.size(); ++n) {
        const float cost = sounds_[node][row][n];
        if (cost >= kNever / 2) continue;
        const std::size_t to = node + n;
        const float extra = inside(node, to);
        if (!worth(node, to, cost + extra, gain)) continue;
        if (const Exact* e = exact_over(node, to);
            e != nullptr && (e->any() || e->go)) {
          continue;
        }
        if (inner_only && edge(node) && edge(to) && token_of_[to] != token_of_[node] + 1) continue;
        add(node, to, unit, {}, cost + extra);
      }
    };
    if (!spoken_) return;
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

  struct SeenSquare {
    std::size_t node, span, square;
    float cost;
  };

  const std::vector<Token>& tokens_;
  bool spoken_;
  UnitGraph& g_;
  std::array<Phones, kSaid.size()> said_;
  std::array<float, 8> lost_{};                  // by file: cost of its not being heard
  std::vector<std::optional<std::size_t>> row_;  // by lexicon::Unit
  std::vector<Exact> exact_;                     // by token
  std::vector<Phone> phones_;                    // by node
  std::vector<bool> wall_;                       // by node: punctuation before it
  std::vector<float> background_;                // by node: of all before it
  std::vector<std::size_t> token_of_;            // by node
  std::vector<Sounds> sounds_;                   // by node
  std::vector<SeenSquare> seen_squares_;         // by node
  std::vector<char> reached_;                    // by node: some unit ends there
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
      {{"thirty", "three"}, {"forty", "four"}, {"fifty", "five"}, {"sixty", "six"},
       {"seventy", "seven"}, {"eighty", "eight"}, {"ninety", "nine"}}};
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
