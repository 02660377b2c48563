#include "resolve/start.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <span>
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
constexpr float kNameWeight = 3.0F;           // nats for a unit of name likeness
constexpr float kShort = 0.9F;                // a move short of the named position
constexpr float kBeyond = 0.6F;               // a move beyond it
constexpr float kMovesSaid = 5.0F;            // lessons often begin at move one
constexpr float kPieceSeen = 1.5F;            // a piece is told where it stands
constexpr float kPieceMissing = -1.2F;

// Letters and digits, lower case; umlauts as the table spells them ("Grünfeld", "gruenfeld"), other
// accents fall away.
std::string folded(std::string_view s) {
  if (s == "night" || s == "nights") return "k" + std::string(s);
  std::string out;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const char c = s[i];
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) {
      out.push_back(static_cast<char>(std::tolower(static_cast<unsigned char>(c))));
    } else if (c == '\xC3' && i + 1 < s.size()) {
      const auto low = static_cast<unsigned char>(s[++i]) | 0x20U;
      if (low == 0xA4) out += "a";
      else if (low == 0xB6) out += "oe";
      else if (low == 0xBC) out += "ue";
      else if (low >= 0xA8 && low <= 0xAB) out += "e";
      else if (low >= 0xA0 && low <= 0xA5) out += "a";
    }
  }
  return out;
}

std::vector<std::string> name_words(std::string_view name) {
  static const std::unordered_set<std::string> dull = {
      "variation", "defence", "defense", "opening", "attack", "game", "line", "system", "the",
      "with", "and", "from", "of", "in", "or", "pawn", "s", "counter"};
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

const lexicon::Phones& phones_of(const std::string& word) {  // pronounced once each
  thread_local std::unordered_map<std::string, lexicon::Phones> known;
  const auto [it, added] = known.try_emplace(word);
  if (added) {
    auto all = lexicon::pronounce(word);
    if (!all.empty()) it->second = std::move(all[0]);
  }
  return it->second;
}

// Words of names that every lesson has anyway.
bool everyday(const std::string& w) {
  static const std::unordered_set<std::string> words = {
      "king", "kings", "queen", "queens", "rook", "bishop", "bishops", "knight", "knights", "pawns",
      "two", "three", "four", "five", "six", "old", "main", "white", "black", "classical", "modern",
      "normal", "open", "closed", "short", "long", "quiet", "trap", "gambit", "gambits", "centre",
      "castling", "check", "positional", "free", "fried", "symmetrical", "accepted", "declined",
      "move", "early", "young", "lesser", "improved", "double", "hanging", "strategy", "without"};
  return words.count(w) != 0 || (w.size() <= 3 && w.find_first_of("12345678") != std::string::npos);
}

std::size_t letters_apart(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
      corner = row[j];
      row[j] = std::min({change, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row[b.size()];
}

// 0..1: how alike a heard word and a name's word sound.
float likeness(const std::string& said, const std::string& heard) {
  if (said == heard) return 1;
  if (said.size() < 4 || heard.size() < 3 || everyday(said) || everyday(heard)) return 0;
  std::size_t same = 0;
  while (same < said.size() && same < heard.size() && said[same] == heard[same]) ++same;
  if (same >= 5 && same * 3 + 5 >= heard.size() * 2) return 0.8F;  // "catalonian"
  if (said.size() < 5 || heard.size() > said.size() + 4 || said.size() > heard.size() + 4) return 0;
  float spelled = 0;
  if (said.size() >= 6 && heard.size() >= 5 && said[0] == heard[0]) {
    spelled = 1.0F - 1.2F * static_cast<float>(letters_apart(said, heard)) /
                         static_cast<float>(said.size());
    if (spelled < 0.6F) spelled = 0;
  }
  const lexicon::Phones& a = phones_of(said);
  const lexicon::Phones& b = phones_of(heard);
  if (a.size() < 4 || b.empty() || a.size() > b.size() + 3 || b.size() > a.size() + 3) {
    return spelled;
  }
  // Most of the sounds must be there at all, before their order is looked into.
  std::array<std::int8_t, lexicon::kPhoneCount> count{};
  for (const lexicon::Phone p : a) ++count[p];
  std::size_t shared = 0;
  for (const lexicon::Phone p : b) shared += count[p]-- > 0 ? 1 : 0;
  const std::size_t longer = std::max(a.size(), b.size());
  if (shared * 5 < longer * 2) return spelled;
  const float cost = lexicon::sound_cost(a, b) - lexicon::sound_cost(a, a);
  const float per_phone = cost / static_cast<float>(longer);
  return std::max(spelled, per_phone < 0.9F ? 1.0F - 0.8F * per_phone : 0.0F);
}

class NameMatcher {
 public:
  NameMatcher(const Lattice& lattice, std::string_view title) {
    const auto n = std::min<std::size_t>(lattice.tokens.size(), kIntroduction);
    for (const std::string& w : name_words(title)) add(w, 1);
    for (std::size_t t = 0; t < n; ++t) {
      // A lesson's subject is named early; later come names of what it is not about.
      const float trust = t < 60 ? 1.0F : 0.75F;
      add(folded(lattice.tokens[t].norm), trust);
      if (t + 1 < n && lattice.tokens[t].norm.size() > 2) {
        add(folded(lattice.tokens[t].norm) + folded(lattice.tokens[t + 1].norm), trust);
      }
    }
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
      add(folded(move), 1);
    }
  }

  // Matched weight less what the name has and the talk hasn't.
  float name(const std::vector<std::uint32_t>& words, std::span<const std::string> vocabulary,
             std::span<const float> weights) {
    if (best_.empty()) best_.assign(vocabulary.size(), -1);
    float gain = 0;
    for (std::size_t i = 0; i < words.size(); ++i) {
      float& m = best_[words[i]];
      if (m < 0) m = word(vocabulary[words[i]]);
      const float weight = weights[words[i]];
      // A family may go without saying ("the Najdorf"), its branches may not.
      gain += m > 0 ? m * weight : (i == 0 ? -0.2F : -0.45F) * std::max(weight, 0.6F);
      // Everyday words side by side name something after all ("two knights", "four pawns").
      if (i > 0 && weight < 0.3F && weights[words[i - 1]] < 0.3F &&
          seen_.count(vocabulary[words[i - 1]] + vocabulary[words[i]]) != 0) {
        gain += 1.0F;
      }
    }
    return gain;
  }

 private:
  float word(const std::string& w) const {
    float best = 0;
    for (const auto& [h, trust] : heard_) {
      if (h[0] != w[0] && best > 0.6F) continue;
      const float like = likeness(w, h);
      best = std::max(best, like < 0.45F ? 0 : like * trust);
    }
    return best;
  }
  void add(std::string w, float trust) {
    if (w.size() >= 3 && seen_.insert(w).second) heard_.emplace_back(std::move(w), trust);
  }
  std::vector<std::pair<std::string, float>> heard_;
  std::unordered_set<std::string> seen_;
  std::vector<float> best_;  // by word of the table; below zero: not yet asked
};

// The table's names by words, made once.
struct NameTable {
  std::vector<std::vector<std::uint32_t>> names;  // by opening: words of the vocabulary
  std::vector<std::string> vocabulary;
  std::vector<float> weights;

  NameTable() {
    std::unordered_map<std::string, std::uint32_t> ids;
    std::vector<int> count;
    for (const auto& o : lexicon::openings()) {
      std::vector<std::uint32_t>& words = names.emplace_back();
      for (std::string& w : name_words(o.name)) {
        const auto [it, added] = ids.try_emplace(w, static_cast<std::uint32_t>(vocabulary.size()));
        if (added) {
          vocabulary.push_back(std::move(w));
          count.push_back(0);
        }
        ++count[it->second];
        words.push_back(it->second);
      }
    }
    const auto all = static_cast<float>(names.size());
    for (std::size_t i = 0; i < vocabulary.size(); ++i) {
      const float idf = std::log(all / static_cast<float>(count[i])) / 4.0F;
      weights.push_back(everyday(vocabulary[i]) ? 0.25F : std::clamp(idf, 0.6F, 1.4F));
    }
  }
};

const NameTable& name_table() {
  static const NameTable table;
  return table;
}

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

// What the first strong readings say of a start: those that begin the lesson are moves on its way
// in, or men that stand there; the ones after that are legal from it, one after another or beside.
class Evidence {
 public:
  explicit Evidence(const Lattice& lattice, std::uint32_t from = 0) : lattice_(lattice) {
    for (const std::uint32_t i : lattice.primary) {
      const auto& r = lattice.readings[i];
      if (r.first < from) continue;
      if (r.first > from + 2 * kIntroduction || said_.size() >= 14) break;
      if (r.strong && r.best < 1.2F && (r.has_to || r.castle != 0)) said_.push_back(i);
    }
  }

  float of(const Position& start, const std::vector<board::Move>& line) const {
    // The way in: which of the first readings are moves of the line's end.
    std::vector<Position> before;
    Position p = Position::initial();
    for (board::Move m : line) {
      before.push_back(p);
      p = p.after(m);
    }
    std::vector<float> way(said_.size() + 1, 0.0F);
    for (std::size_t i = 0; i < said_.size(); ++i) {
      const auto& r = lattice_.readings[said_[i]];
      float best = 0;
      for (std::size_t k = before.size() > 8 ? before.size() - 8 : 0; k < before.size(); ++k) {
        const auto fit = hearing::match(r, before[k], line[k], false);
        best = std::max(best, (k + 1 == before.size() ? 1.3F : 1.0F) * worth(fit.cost));
      }
      way[i + 1] = way[i] + 0.55F * best;
    }
    // From the start on, beginning at any of the readings.
    float best = 0;
    for (std::size_t first = 0; first <= std::min<std::size_t>(said_.size(), 6); ++first) {
      best = std::max(best, way[first] + follow(start, first));
    }
    return best;
  }

 private:
  static float worth(float cost) { return cost < 1.5F ? 1.5F - 0.6F * cost : 0.0F; }

  // Greedy: each reading is a move at the cursor, beside it, or at the start; else it is passed over.
  float follow(const Position& start, std::size_t first) const {
    std::vector<Position> path = {start};
    float sum = 0;
    float fade = 1;
    for (std::size_t i = first; i < std::min(said_.size(), first + 7); ++i, fade *= 0.9F) {
      const auto& r = lattice_.readings[said_[i]];
      float best = 0.2F;
      std::size_t at = 0;
      board::Move move;
      for (std::size_t back = 0; back < path.size(); ++back) {
        if (back > 1 && back + 1 != path.size()) continue;
        const Position& p = path[path.size() - 1 - back];
        board::MoveList moves;
        p.legal_moves(moves);
        for (board::Move m : moves) {
          const float gain = (back == 0 ? 1.0F : 0.7F) * worth(hearing::match(r, p, m, false).cost);
          if (gain > best) {
            best = gain;
            at = back;
            move = m;
          }
        }
      }
      if (best <= 0.2F) {
        sum -= 0.5F * fade;
        continue;
      }
      sum += best * fade;
      path.resize(path.size() - at);
      path.push_back(path.back().after(move));
    }
    return sum;
  }

  const Lattice& lattice_;
  std::vector<std::uint32_t> said_;
};

}  // namespace

std::vector<StartOption> infer_starts(const Lattice& lattice, std::string_view title,
                                      std::size_t limit) {
  std::vector<StartOption> out = told_positions(lattice);
  if (!out.empty()) {  // the near miss that makes sense of what follows
    const Evidence after(lattice, out[0].token);
    for (StartOption& option : out) option.gain += after.of(option.start.position, {});
    std::stable_sort(out.begin(), out.end(), [](const StartOption& a, const StartOption& b) {
      return a.gain > b.gain;
    });
    return out;
  }

  NameMatcher names(lattice, title);
  const NameTable& table = name_table();
  const auto told = told_pieces(lattice);
  const auto openings = lexicon::openings();
  // What each point of a line is worth by name: its own, or that of a longer line less what is
  // missing, or that of a shorter one less what goes beyond. Lines share keys as far as they agree.
  struct Point {
    float gain = -100;
    std::size_t opening = 0;
    std::size_t moves = 0;
  };
  std::unordered_map<std::string_view, Point> points;
  std::vector<float> gains(openings.size());
  for (std::size_t i = 0; i < openings.size(); ++i) {
    gains[i] = kNameWeight * names.name(table.names[i], table.vocabulary, table.weights);
    if (gains[i] < 1.5F) continue;
    Point& own = points[openings[i].moves];
    if (gains[i] > own.gain) own = {gains[i], i, 0};
  }
  const std::unordered_map<std::string_view, Point> named = points;
  for (std::size_t i = 0; i < openings.size(); ++i) {
    const std::string_view moves = openings[i].moves;
    const auto plies = static_cast<std::size_t>(std::count(moves.begin(), moves.end(), ' ')) + 1;
    Point above;
    std::size_t ply = 0;
    for (std::size_t end = 0; end < moves.size(); ++end) {
      end = std::min(moves.find(' ', end + 1), moves.size());
      ++ply;
      const std::string_view key = moves.substr(0, end);
      above.gain -= kBeyond;
      if (const auto it = named.find(key); it != named.end() && it->second.gain > above.gain) {
        above = it->second;
      }
      if (ply < 3) continue;
      Point here = above;
      const float below = gains[i] - kShort * static_cast<float>(std::min<std::size_t>(plies - ply, 6));
      if (gains[i] >= 1.5F && below > here.gain) here = {below, i, 0};
      if (here.gain < 0) continue;
      Point& point = points[key];
      if (here.gain > point.gain) point = here;
      point.moves = ply;
    }
  }
  std::vector<std::pair<std::string_view, Point>> best(points.begin(), points.end());
  std::sort(best.begin(), best.end(), [](const auto& x, const auto& y) {
    return x.second.gain != y.second.gain ? x.second.gain > y.second.gain : x.first < y.first;
  });
  if (best.size() > 400) best.resize(400);
  const Evidence evidence(lattice);
  for (const auto& [key, point] : best) {
    const auto line = board::parse_line(Position::initial(), key);
    if (!line) continue;
    StartOption option;
    option.start.position = Position::initial();
    for (board::Move m : *line) option.start.position = option.start.position.after(m);
    option.gain = point.gain + told_gain(told, option.start.position) +
                  evidence.of(option.start.position, *line);
    option.start.moves = *line;
    option.start.how = "opening name";
    option.start.name = std::string(openings[point.opening].name);
    out.push_back(std::move(option));
  }
  StartOption initial;
  initial.start.position = Position::initial();
  initial.start.how = "moves said";
  initial.gain = kMovesSaid + evidence.of(initial.start.position, {});
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
