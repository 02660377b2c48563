#include "resolve/start.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <unordered_map>
#include <unordered_set>

#include "board/notation.h"
#include "lexicon/channel.h"
#include "lexicon/openings.h"
#include "lexicon/pronounce.h"

namespace plyscribe::resolve {
namespace {

using board::Position;
using hearing::Lattice;

constexpr std::uint32_t kIntroduction = 160;  // tokens in which the opening is named
constexpr float kNameWeight = 1.6F;           // nats for a unit of name likeness
constexpr float kPieceSeen = 1.5F;            // a piece is told where it stands
constexpr float kPieceMissing = -1.2F;

std::string folded(std::string_view s) {  // letters and digits, lower case; accents fall away
  std::string out;
  for (char c : s) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) {
      out.push_back(static_cast<char>(std::tolower(static_cast<unsigned char>(c))));
    }
  }
  return out;
}

std::vector<std::string> name_words(std::string_view name) {
  static const std::unordered_set<std::string> dull = {
      "variation", "defence", "defense", "opening", "attack", "game", "line", "system", "the",
      "with", "and", "of", "in", "or", "pawn", "s", "counter"};
  std::vector<std::string> out;
  std::string word;
  for (std::size_t i = 0; i <= name.size(); ++i) {
    if (i < name.size() && (std::isalnum(static_cast<unsigned char>(name[i])) != 0 ||
                            static_cast<unsigned char>(name[i]) >= 128)) {
      word.push_back(static_cast<char>(std::tolower(static_cast<unsigned char>(name[i]))));
    } else {
      if (i < name.size() && name[i] == '\'') continue;
      std::string plain = folded(word);
      if (plain.size() >= 3 && dull.count(plain) == 0) out.push_back(plain);
      word.clear();
    }
  }
  return out;
}

// 0..1: how alike a heard word and a name's word sound.
float likeness(const std::string& said, const std::string& heard) {
  if (said == heard) return 1;
  if (said.size() < 4 || heard.size() < 3) return 0;
  std::size_t same = 0;
  while (same < said.size() && same < heard.size() && said[same] == heard[same]) ++same;
  if (same >= 5 && same * 3 >= heard.size() * 2 - 3) return 0.8F;  // "catalonian"
  const auto a = lexicon::pronounce(said);
  const auto b = lexicon::pronounce(heard);
  if (a.empty() || b.empty()) return 0;
  const float own = lexicon::sound_cost(a[0], a[0]);
  const float cost = lexicon::sound_cost(a[0], b[0]) - own;
  const float per_phone = cost / static_cast<float>(std::max(a[0].size(), b[0].size()));
  return per_phone < 0.9F ? 1.0F - 0.8F * per_phone : 0.0F;
}

class NameMatcher {
 public:
  NameMatcher(const Lattice& lattice, std::string_view title) {
    const auto n = std::min<std::size_t>(lattice.tokens.size(), kIntroduction);
    for (std::size_t t = 0; t < n; ++t) {
      add(folded(lattice.tokens[t].norm));
      if (t + 1 < n && lattice.tokens[t].norm.size() > 2) {
        add(folded(lattice.tokens[t].norm) + folded(lattice.tokens[t + 1].norm));
      }
    }
    for (const std::string& w : name_words(title)) add(w);
    // "with bishop g5": moves that the table's names hold ("6.Bg5").
    for (const auto& r : lattice.readings) {
      if (r.first >= n) break;
      if (!r.strong || r.by_ear || !r.has_piece || !r.has_to || r.takes) continue;
      const auto at = [](const auto& costs) {
        return static_cast<std::size_t>(std::min_element(costs.begin(), costs.end()) - costs.begin());
      };
      const std::size_t square = at(r.to);
      std::string move = std::string("  nbrqk").substr(at(r.piece), 1);
      move.push_back(static_cast<char>('a' + square % 8));
      move.push_back(static_cast<char>('1' + square / 8));
      add(folded(move));
    }
    std::unordered_map<std::string, int> count;
    for (const auto& o : lexicon::openings()) {
      for (const std::string& w : name_words(o.name)) ++count[w];
    }
    for (const auto& [w, c] : count) {
      idf_[w] = std::log(2013.0F / static_cast<float>(c));
    }
  }

  float word(const std::string& w) {
    const auto [it, added] = best_.try_emplace(w, 0.0F);
    if (added) {
      for (const std::string& h : heard_) {
        it->second = std::max(it->second, likeness(w, h));
        if (it->second >= 1) break;
      }
      if (it->second < 0.45F) it->second = 0;
    }
    return it->second;
  }

  float idf(const std::string& w) const {
    const auto it = idf_.find(w);
    return it == idf_.end() ? 7.0F : it->second;
  }

  // Matched weight less what the name has and the talk hasn't.
  float name(std::string_view name) {
    const auto words = name_words(name);
    if (words.empty()) return 0;
    float gain = 0;
    for (std::size_t i = 0; i < words.size(); ++i) {
      const float m = word(words[i]);
      const float weight = std::min(idf(words[i]), 6.0F) / 4.0F;
      // A family may go without saying ("the Najdorf"), its branches may not.
      gain += m > 0 ? m * weight : (i == 0 ? -0.25F : -0.45F) * weight;
    }
    return gain;
  }

 private:
  void add(std::string w) {
    if (w.size() >= 3 && seen_.insert(w).second) heard_.push_back(std::move(w));
  }
  std::vector<std::string> heard_;
  std::unordered_set<std::string> seen_;
  std::unordered_map<std::string, float> best_;
  std::unordered_map<std::string, float> idf_;
};

// "the bishop is on c4": what is told of the board before the first move.
struct Told {
  board::PieceType type;
  board::Square square;
};

std::vector<Told> told_pieces(const Lattice& lattice) {
  std::vector<Told> out;
  for (const auto& r : lattice.readings) {
    if (r.first > kIntroduction) break;
    if (!r.has_piece || !r.has_to || r.takes || r.by_ear || r.best > 0.6F || r.written) {
      // A written square is fine where the piece is a word.
      if (!(r.has_piece && r.has_to && !r.takes && !r.by_ear && r.best <= 1.0F)) continue;
    }
    bool on = false;
    for (std::uint32_t t = r.first; t < r.last; ++t) {
      const std::string& w = lattice.tokens[t].norm;
      on = on || w == "on" || w == "at";
    }
    if (!on) continue;
    for (std::size_t p = 1; p < 7; ++p) {
      if (r.piece[p] > 0) continue;
      for (std::size_t s = 0; s < 64; ++s) {
        if (r.to[s] <= 0.01F) out.push_back({static_cast<board::PieceType>(p), static_cast<board::Square>(s)});
      }
    }
  }
  return out;
}

float told_gain(const std::vector<Told>& told, const Position& p) {
  float gain = 0;
  for (const Told& t : told) gain += p.type_at(t.square) == t.type ? kPieceSeen : kPieceMissing;
  return gain;
}

}  // namespace

std::vector<StartOption> infer_starts(const Lattice& lattice, std::string_view title,
                                      std::size_t limit) {
  std::vector<StartOption> out = told_positions(lattice);
  if (!out.empty()) return out;

  NameMatcher names(lattice, title);
  const auto told = told_pieces(lattice);
  std::map<std::string, StartOption> by_moves;  // the best name of each line
  for (const auto& o : lexicon::openings()) {
    const float name = names.name(o.name);
    if (name <= 0.8F) continue;
    const auto line = board::parse_line(Position::initial(), o.moves);
    if (!line) continue;
    // The named position, and those on the way to it, which the speaker may start from.
    Position p = Position::initial();
    std::vector<board::Move> moves;
    std::string key;
    for (std::size_t i = 0; i < line->size(); ++i) {
      key += board::to_uci((*line)[i]) + " ";
      p = p.after((*line)[i]);
      moves.push_back((*line)[i]);
      if (i < 2) continue;
      const std::size_t short_by = line->size() - moves.size();
      const float gain = kNameWeight * name - 0.9F * static_cast<float>(std::min<std::size_t>(short_by, 6)) +
                         told_gain(told, p);
      StartOption& option = by_moves[key];
      if (!option.start.moves.empty() && option.gain >= gain) continue;
      option.gain = gain;
      option.start.position = p;
      option.start.moves = moves;
      option.start.how = "opening name";
      option.start.name = std::string(o.name);
    }
  }
  for (auto& [key, option] : by_moves) out.push_back(std::move(option));
  StartOption initial;
  initial.start.position = Position::initial();
  initial.start.how = "moves said";
  initial.gain = told_gain(told, initial.start.position) + 2.0F;
  out.push_back(initial);
  std::stable_sort(out.begin(), out.end(), [](const StartOption& a, const StartOption& b) {
    return a.gain > b.gain;
  });
  if (out.size() > limit) {
    const bool kept = std::any_of(out.begin(), out.begin() + static_cast<std::ptrdiff_t>(limit),
                                  [](const StartOption& o) { return o.start.moves.empty(); });
    out.resize(limit);
    if (!kept) out.back() = initial;
  }
  return out;
}

Result<StartOption> given_start(std::string_view text) {
  StartOption option;
  option.start.how = "given";
  if (text.find('/') != std::string_view::npos) {
    auto p = board::parse_fen(text);
    if (!p) return Error{"--start: " + p.error().message};
    option.start.position = *p;
    return option;
  }
  const auto line = board::parse_line(Position::initial(), text);
  if (line) {
    option.start.moves = *line;
    option.start.position = Position::initial();
    for (board::Move m : *line) option.start.position = option.start.position.after(m);
    return option;
  }
  // An opening's name: all its words in the table's name, the shortest line that has them.
  const auto wanted = name_words(text);
  const lexicon::Opening* best = nullptr;
  float best_gain = 0;
  for (const auto& o : lexicon::openings()) {
    const auto have = name_words(o.name);
    float gain = 0;
    bool all = !wanted.empty();
    for (const std::string& w : wanted) {
      float m = 0;
      for (const std::string& h : have) m = std::max(m, likeness(h, w));
      all = all && m > 0.5F;
      gain += m;
    }
    if (!all) continue;
    gain -= 0.2F * static_cast<float>(have.size());
    if (best == nullptr || gain > best_gain + 1e-4F ||
        (gain > best_gain - 1e-4F && o.moves.size() < best->moves.size())) {
      best = &o;
      best_gain = gain;
    }
  }
  if (best == nullptr) {
    return Error{"--start: expected the name of an opening, moves from the initial position, or a "
                 "FEN; got '" + std::string(text) + "'"};
  }
  const auto moves = board::parse_line(Position::initial(), best->moves);
  if (!moves) return moves.error();
  option.start.name = std::string(best->name);
  option.start.moves = *moves;
  option.start.position = Position::initial();
  for (board::Move m : *moves) option.start.position = option.start.position.after(m);
  return option;
}

std::optional<board::Color> lesson_side(const Lattice& lattice, std::string_view title) {
  std::string text = " ";
  for (char c : title) text.push_back(static_cast<char>(std::tolower(static_cast<unsigned char>(c))));
  for (std::size_t t = 0; t < std::min<std::size_t>(lattice.tokens.size(), 320); ++t) {
    text += " " + lattice.tokens[t].norm;
  }
  text += " ";
  float white = 0;
  float black = 0;
  const auto count = [&](std::string_view phrase, float weight, float& sum) {
    for (std::size_t at = text.find(phrase); at != std::string::npos; at = text.find(phrase, at + 1)) {
      sum += weight;
    }
  };
  for (const auto& [pattern, weight] : std::initializer_list<std::pair<const char*, float>>{
           {" for %", 2}, {" with %", 1}, {" with the % pieces", 2}, {" from the % side", 2},
           {" from %s point of view", 2}, {" we're %", 2}, {" we are %", 2}, {" you're %", 1},
           {" playing %", 1}, {" as %", 1}, {" from %s side", 2}, {" % repertoire", 2},
           {" the % side", 1}, {" when i say we i mean %", 3}}) {
    const std::string p(pattern);
    const std::size_t hole = p.find('%');
    count(p.substr(0, hole) + "white" + p.substr(hole + 1), weight, white);
    count(p.substr(0, hole) + "black" + p.substr(hole + 1), weight, black);
  }
  if (white > black) return board::Color::kWhite;
  if (black > white) return board::Color::kBlack;
  return std::nullopt;
}

}  // namespace plyscribe::resolve
