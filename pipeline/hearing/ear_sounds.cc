#include "hearing/ear_sounds.h"

#include <algorithm>
#include <string>
#include <utility>

#include "grammar/grammar.h"
#include "hearing/ear.h"

namespace plyscribe::hearing {
namespace {

using grammar::Unit;
using lexicon::Phone;
using lexicon::Phones;

constexpr std::size_t kWords = 3;       // words the table of hearings knows together
constexpr float kByPhones = 1.0F;       // no word was ever heard so, but the sounds are near
constexpr float kLeastByPhones = 2.2F;  // ... and never less than this
constexpr float kFar = 7.0F;         // sounds further off, over the unit's own cost, are not tried
constexpr float kFarCastles = 9.0F;  // ... of a long word
constexpr float kFarWritten = 3.0F;  // ... of a dictation recogniser
constexpr float kFarWrittenFile = 4.5F;  // ... where a square is due
constexpr float kFarWrittenPiece = 5.0F;
constexpr float kHomophone = 0.4F;  // not the word of the table, but its sound
constexpr float kOtherWord = 1.0F;  // castling, heard as another word
constexpr float kExact = 0.3F;      // a letter or digit of a square that is spelled right

std::optional<std::size_t> row_of(std::string_view unit) {
  if (unit == "captures") return kTakes;
  const auto at = std::find(kSaid.begin() + 1, kSaid.end(), unit);
  if (at == kSaid.end()) return std::nullopt;
  return static_cast<std::size_t>(at - kSaid.begin());
}

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

}  // namespace

bool has_digit(std::string_view s) {
  return std::any_of(s.begin(), s.end(), [](char c) { return c >= '0' && c <= '9'; });
}

Exact exact_of(const Token& t) {
  Exact out;
  for (const auto& entry : grammar::grammar().vocabulary(t.norm)) {
    switch (entry.unit) {
      case Unit::kPiece:
        out.piece = true;
        break;
      case Unit::kTakes:
        out.takes = true;
        break;
      case Unit::kCheck:
      case Unit::kMate:
        out.check = true;
        break;
      case Unit::kCastle:
        out.castle = true;
        break;
      case Unit::kGo:
        out.go = true;
        break;
      case Unit::kRank:
        out.rank = entry.value - '1';
        break;
      default:
        break;
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

EarSounds::EarSounds(const std::vector<Token>& heard, Script script)
    : tokens(heard), spoken(script == Script::kSpokenWords) {
  for (std::size_t row = 1; row < kSaid.size(); ++row) {
    said_[row] = lexicon::pronounce(kSaid[row]).front();
  }
  for (std::size_t u = 0; u < lexicon::unit_count(); ++u) {
    row_.push_back(row_of(lexicon::unit_name(static_cast<lexicon::Unit>(u))));
  }
  lost.fill(4.0F);
  for (const lexicon::Hearing& h : lexicon::heard_as("")) {
    const auto row = row_[h.units[0]];
    if (h.unit_count == 1 && row && *row >= kFirstFile && *row < kFirstRank)
      lost[*row - kFirstFile] = h.cost;
  }
  for (const Token& t : tokens) exact.push_back(exact_of(t));
  lay_out();
  for (std::size_t node = 0; node < phones.size(); ++node) {
    by_phones(node);
    by_sound_of_table(node);
    if (edge(node)) by_table(node);
  }
}

void EarSounds::lay_out() {
  const std::vector<float> background = token_backgrounds(tokens);
  background_.push_back(0);
  for (std::size_t t = 0; t < tokens.size(); ++t) {
    node_of_token.push_back(static_cast<std::uint32_t>(phones.size()));
    Phones own;
    if (!has_digit(tokens[t].raw) || exact[t].rank >= 0) {
      const auto ways = lexicon::pronounce(tokens[t].norm);
      if (!ways.empty()) own = ways.front();
    }
    if (own.empty()) own.push_back(kNoPhone);
    for (std::size_t i = 0; i < own.size(); ++i) {
      phones.push_back(own[i]);
      token_at_node.push_back(i == 0 ? static_cast<std::int32_t>(t) : -1);
      wall.push_back(i == 0 && t > 0 && !tokens[t - 1].mark.empty());
      background_.push_back(background_.back() + background[t] / static_cast<float>(own.size()));
      token_of.push_back(t);
    }
  }
  token_of.push_back(tokens.size());
  wall.push_back(true);
  node_of_token.push_back(static_cast<std::uint32_t>(phones.size()));
  token_at_node.push_back(static_cast<std::int32_t>(tokens.size()));
  Ends never;
  never.fill(kNever);
  Sounds none;
  none.fill(never);
  at.assign(phones.size() + 1, none);
}

// Phones from node that one unit may cover.
std::size_t EarSounds::reach(std::size_t node) const {
  std::size_t n = 0;
  while (n < kSpan && node + n < phones.size() && phones[node + n] != kNoPhone &&
         (n == 0 || !wall[node + n])) {
    ++n;
  }
  return n;
}

void EarSounds::by_phones(std::size_t node) {
  const std::size_t most = reach(node);
  if (most == 0) return;
  const bool is_due = !spoken && edge(node) && after_chess_word(node);
  const lexicon::PhoneCosts& c = lexicon::phone_costs();
  // Pieces and castling begin with a word; verbs are asked for in spoken words only.
  const std::size_t first_row = edge(node) ? 1 : kFirstFile;
  const std::size_t last_row = !spoken ? kTakes : edge(node) ? kSaid.size() : kCastling;
  for (std::size_t row = first_row; row < last_row; ++row) {
    const Phones& said = said_[row];
    const std::size_t n = std::min(most, said.size() + 3);
    std::array<float, kSpan + 1> costs{};
    for (std::size_t j = 0; j < n; ++j) costs[j + 1] = costs[j] + c.put_in[phones[node + j]];
    float own = 0;
    for (const Phone s : said) {
      own += c.as[s][s];
      float diagonal = costs[0];
      costs[0] += c.lost[s];
      for (std::size_t j = 0; j < n; ++j) {
        const float as = diagonal + c.as[s][phones[node + j]];
        diagonal = costs[j + 1];
        costs[j + 1] = std::min({as, diagonal + c.lost[s], costs[j] + c.put_in[phones[node + j]]});
      }
    }
    for (std::size_t j = 1; j <= n; ++j) {
      const float over = costs[j] - own;
      if (spoken) {
        if (over > (row == kCastles || row >= kCastling ? kFarCastles : kFar)) continue;
        at[node][row][j] =
            std::max(costs[j] + kByPhones, kLeastByPhones) + (row > kCastle ? kOtherWord : 0);
      } else if (over <= (row < kFirstFile             ? kFarWrittenPiece
                          : row < kFirstRank && is_due ? kFarWrittenFile
                                                       : kFarWritten)) {
        at[node][row][j] = 0.5F + over;
      }
    }
  }
}

void EarSounds::hear(std::size_t node, std::size_t span, const lexicon::Hearing& h, float extra) {
  const auto units = h.said();
  const auto a = row_[units[0]];
  if (!a) return;
  if (units.size() == 1) {
    float& cost = at[node][*a][span];
    cost = std::min(cost, h.cost + extra);
  } else if (units.size() == 2 && *a >= kFirstFile && *a < kFirstRank) {
    const auto b = row_[units[1]];
    if (!b || *b < kFirstRank || *b >= kTakes) return;
    seen_squares.push_back({node, span, (*b - kFirstRank) * 8 + *a - kFirstFile, h.cost + extra});
  }
}

// Sounds that are known as those of other words.
void EarSounds::by_sound_of_table(std::size_t node) {
  const HearingTrie& trie = hearing_trie();
  const std::size_t most = reach(node);
  const HearingTrie::Node* at = &trie.root();
  for (std::size_t n = 0; n < most && at != nullptr;) {
    at = trie.next(*at, phones[node + n]);
    ++n;
    if (at == nullptr) break;
    if (n < 2 || (!spoken && (!edge(node) || !edge(node + n)))) continue;
    for (const lexicon::Hearing* h : at->here) hear(node, n, *h, kHomophone);
  }
}

// What whole words were heard for.
void EarSounds::by_table(std::size_t node) {
  const auto first = static_cast<std::size_t>(token_at_node[node]);
  std::string phrase;
  for (std::size_t n = 0; n < kWords && first + n < tokens.size(); ++n) {
    if (n > 0) {
      if (!tokens[first + n - 1].mark.empty()) break;
      phrase.push_back(' ');
    }
    phrase += tokens[first + n].norm;
    const std::size_t span = node_of_token[first + n + 1] - node;
    if (span > kSpan) break;
    for (const lexicon::Hearing& h : lexicon::heard_as(phrase)) hear(node, span, h, 0);
  }
  for (const auto& [word, square, cost] : kFused) {
    if (tokens[first].norm != word) continue;
    const std::size_t at = static_cast<std::size_t>((square[1] - '1') * 8 + square[0] - 'a');
    seen_squares.push_back({node, node_of_token[first + 1] - node, at, cost});
  }
  // Letters and digits that are spelled right.
  const std::size_t span = node_of_token[first + 1] - node;
  if (exact[first].file >= 0) {
    float& cost = at[node][kFirstFile + static_cast<std::size_t>(exact[first].file)][span];
    cost = std::min(cost, kExact);
  }
  if (exact[first].rank >= 0) {
    float& cost = at[node][kFirstRank + static_cast<std::size_t>(exact[first].rank)][span];
    cost = std::min(cost, kExact);
  }
}

const Exact* EarSounds::exact_over(std::size_t from, std::size_t to) const {
  if (!edge(from) || !edge(to) || token_of[to] != token_of[from] + 1) return nullptr;
  return &exact[token_of[from]];
}

bool EarSounds::after_chess_word(std::size_t node) const {
  std::size_t t = token_of[node];
  if (t == 0 || !tokens[t - 1].mark.empty()) return false;
  if (exact[t - 1].piece || exact[t - 1].takes) return true;
  return exact[t - 1].go && t >= 2 && tokens[t - 2].mark.empty() &&
         (exact[t - 2].piece || exact[t - 2].takes);
}

}  // namespace plyscribe::hearing
