#include "resolve/start.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <unordered_map>
#include <unordered_set>

#include "board/notation.h"
#include "lexicon/book.h"
#include "lexicon/channel.h"
#include "lexicon/openings.h"
#include "resolve/opening_names.h"

namespace plyscribe::resolve {
namespace {

using board::Position;
using hearing::Lattice;

constexpr std::uint32_t kIntroduction = 160;  // tokens in which the opening is named
constexpr float kNameWeight = 3.0F;           // nats for a unit of name likeness
constexpr float kShort = 0.9F;                // a move short of the named position
constexpr float kBeyond = 0.6F;               // a move beyond it
constexpr float kBookPly = 0.25F;             // a move of master play beyond a named line
constexpr std::size_t kBookPlies = 16;        // at most so many
constexpr double kBookShare = 0.12;           // of a position's games: rarer moves are not followed
constexpr float kTooFar = 8;                  // nats: book lines dearer than this are not starts
constexpr float kNearBest = 3.0F;             // names this near to the best are carried on
constexpr std::size_t kContinued = 900;        // lines of master play looked at
constexpr std::size_t kFewNamed = 40;
constexpr float kUnnamed = -2;
constexpr float kTurnTold = 1.5F;             // "White to move"
constexpr float kTurnWrong = -2.5F;
constexpr float kMoveNumberSaid = 1.5F;         // "we are on move eight"
constexpr float kMoveNumberTold = 3.0F;       // "White to move, move nine"
constexpr std::size_t kToldStarts = 60;       // near misses of a told position
constexpr float kMovesSaid = 5.0F;            // lessons often begin at move one
constexpr float kPieceSeen = 1.5F;            // a piece is told where it stands
constexpr float kPieceMissing = -1.2F;
constexpr float kMisheardMan = 2.5F;          // nats up to which a told square may be another

// "The bishop is on c4", "our pawns are on d6, f5 and g6": what is told of the board before the first
// move. A reading that names a square, and the man it is told of.
struct Told {
  const hearing::Reading* where;
  board::PieceType what;
};

// The man that a word names, as written or as misheard ("ponds"); kNone if none.
board::PieceType man_in(std::string_view word) {
  static constexpr std::array<std::string_view, 7> kNames = {"",     "pawn", "knight", "bishop",
                                                             "rook", "queen", "king"};
  const std::string_view one = word.ends_with('s') ? word.substr(0, word.size() - 1) : word;
  for (std::size_t p = 1; p < kNames.size(); ++p) {
    if (one == kNames[p]) return static_cast<board::PieceType>(p);
  }
  for (const std::string_view form : {word, one}) {
    for (const lexicon::Hearing& h : lexicon::heard_as(form)) {
      if (h.unit_count != 1 || h.cost > h.background) continue;
      for (std::size_t p = 1; p < kNames.size(); ++p) {
        if (lexicon::unit_name(h.units[0]) == kNames[p]) return static_cast<board::PieceType>(p);
      }
    }
  }
  return board::PieceType::kNone;
}

std::vector<Told> told_pieces(const Lattice& lattice) {
  const auto& tokens = lattice.tokens;
  const bool spoken = lattice.script == hearing::Script::kSpokenWords;
  const auto on = [&](std::uint32_t t) { return tokens[t].norm == "on" || tokens[t].norm == "at"; };
  std::vector<Told> out;
  for (const std::uint32_t i : lattice.primary) {
    const hearing::Reading& r = lattice.readings[i];
    if (r.first > kIntroduction) break;
    if (!r.has_to || r.takes || r.best > (spoken ? 3.0F : 1.0F)) continue;
    std::uint32_t at = r.last;  // where "on" is said
    for (std::uint32_t t = r.first; t < r.last; ++t) at = on(t) ? t : at;
    if (at == r.last && r.first > 0 && on(r.first - 1)) at = r.first - 1;
    if (at < r.last) {
      board::PieceType what = board::PieceType::kNone;
      for (std::uint32_t t = at, far = 0; t-- > 0 && far < 4 && what == board::PieceType::kNone; ++far) {
        what = man_in(tokens[t].norm);
      }
      if (what != board::PieceType::kNone) out.push_back({&r, what});
    } else if (!r.has_piece && !r.has_from_file && !out.empty() &&
               r.first <= out.back().where->last + 1) {
      out.push_back({&r, out.back().what});
    }
  }
  return out;
}

float told_gain(const std::vector<Told>& told, const Position& p) {
  float gain = 0;
  for (const Told& t : told) {
    float best = 99;
    float least = 99;
    for (std::size_t s = 0; s < 64; ++s) {
      least = std::min(least, t.where->to[s]);
      if (p.type_at(static_cast<board::Square>(s)) == t.what) best = std::min(best, t.where->to[s]);
    }
    const float excess = best - least;  // what had to be misheard for it to stand there
    const float trust = 1 / (1 + std::max(0.0F, t.where->best) / 3);
    gain += trust * (excess < kMisheardMan ? kPieceSeen * (1 - excess / kMisheardMan) : kPieceMissing);
  }
  return gain;
}

// "White to move", "it's Black's turn, move eleven": told before the first moves.
struct TurnTold {
  std::optional<board::Color> side;
  int number = 0;  // of the move, 0 where not told
};

int number_in(const std::string& word) {
  static constexpr std::array<std::string_view, 21> kWords = {
      "",     "one",    "two",    "three",    "four",     "five",    "six",
      "seven", "eight", "nine",   "ten",      "eleven",   "twelve",  "thirteen",
      "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"};
  for (std::size_t n = 1; n < kWords.size(); ++n) {
    if (word == kWords[n] || word == std::to_string(n)) return static_cast<int>(n);
  }
  return 0;
}

TurnTold turn_told(const Lattice& lattice) {
  TurnTold out;
  const auto& tokens = lattice.tokens;
  const auto word = [&](std::size_t t) { return t < tokens.size() ? tokens[t].norm : std::string(); };
  const std::size_t n = std::min<std::size_t>(tokens.size(), kIntroduction);
  for (std::size_t t = 0; t < n && !out.side; ++t) {
    const std::string& w = tokens[t].norm;
    const bool white = w == "white" || w == "white's" || w == "whites";
    const bool black = w == "black" || w == "black's" || w == "blacks";
    if (!white && !black) continue;
    const bool to = word(t + 1) == "to" && (word(t + 2) == "move" || word(t + 2) == "play");
    const std::string& next = word(t + 1);
    const bool turn = w.back() != 'e' && w.back() != 'k' &&
                      (next == "turn" || next == "move" || next == "go" || next == "moved");
    if (!to && !turn) continue;
    out.side = white ? board::Color::kWhite : board::Color::kBlack;
    for (std::size_t k = t + (to ? 3 : 2); k < t + 6; ++k) {
      if (word(k) == "move") out.number = number_in(word(k + 1));
    }
  }
  // "We are on move eight": without a side it may be one that has been made already.
  for (std::size_t t = 0; t < n && !out.side && out.number == 0; ++t) {
    if (tokens[t].norm == "move" && t > 0 && tokens[t - 1].norm == "on") out.number = number_in(word(t + 1));
  }
  if (out.number < 4) out.number = 0;
  return out;
}

float turn_gain(const TurnTold& told, const std::vector<board::Move>& line) {
  if (!told.side) {
    return told.number != 0 && told.number == static_cast<int>(line.size() / 2) + 1 ? kMoveNumberSaid : 0;
  }
  const bool white = line.size() % 2 == 0;
  float gain = white == (*told.side == board::Color::kWhite) ? kTurnTold : kTurnWrong;
  if (told.number != 0 && told.number == static_cast<int>(line.size() / 2) + 1) gain += kMoveNumberTold;
  return gain;
}

// A named line carried on by master play, the usual moves first.
struct Continued {
  std::vector<board::Move> line;
  float loss = 0;
};

void carry_on(const std::vector<board::Move>& line, const Position& p, float loss, std::size_t plies,
              std::vector<Continued>& out) {
  if (plies == 0 || loss > kTooFar) return;
  const auto moves = lexicon::book_moves(p);
  double all = 0;
  for (const auto& m : moves) all += m.count;
  for (const auto& m : moves) {
    const double share = m.count / std::max(all, 1.0);
    if (share < kBookShare) continue;
    Continued next;
    next.line = line;
    next.line.push_back(m.move);
    next.loss = loss + kBookPly - 0.5F * static_cast<float>(std::log(share));
    out.push_back(next);
    carry_on(next.line, p.after(m.move), next.loss, plies - 1, out);
  }
}

// What the first strong readings say of a start: those that begin the lesson are moves on its way
// in, or men that stand there; the ones after that are legal from it, one after another or beside.
class FirstMoves {
 public:
  explicit FirstMoves(const Lattice& lattice, std::uint32_t from = 0) : lattice_(lattice) {
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
    const FirstMoves after(lattice, out[0].token);
    for (StartOption& option : out) option.gain += after.of(option.start.position, {});
    std::stable_sort(out.begin(), out.end(), [](const StartOption& a, const StartOption& b) {
      return a.gain > b.gain;
    });
    // Each start kept takes room in the beam from the ways to go on from the others.
    if (out.size() > kToldStarts) out.resize(kToldStarts);
    return out;
  }

  const std::vector<float> named_by = name_likeness(lattice, title, kIntroduction);
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
    gains[i] = kNameWeight * named_by[i];
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
  const FirstMoves first_moves(lattice);
  const TurnTold turn = turn_told(lattice);
  std::unordered_set<std::uint64_t> offered;
  const auto offer = [&](const std::vector<board::Move>& line, float gain, std::size_t opening) {
    StartOption option;
    option.start.position = Position::initial();
    for (board::Move m : line) option.start.position = option.start.position.after(m);
    if (!offered.insert(option.start.position.key()).second) return;
    option.gain = gain + told_gain(told, option.start.position) + turn_gain(turn, line) +
                  first_moves.of(option.start.position, line);
    option.start.moves = line;
    option.start.how = "opening name";
    option.start.name = std::string(openings[opening].name);
    out.push_back(std::move(option));
  };
  std::vector<std::pair<Continued, std::size_t>> continued;  // and by which opening
  for (const auto& [key, point] : best) {
    const auto line = board::parse_line(Position::initial(), key);
    if (!line) continue;
    offer(*line, point.gain, point.opening);
    if (point.gain < best[0].second.gain - kNearBest || named.count(key) == 0) continue;
    Position p = Position::initial();
    for (board::Move m : *line) p = p.after(m);
    std::vector<Continued> more;
    carry_on(*line, p, best[0].second.gain - point.gain, kBookPlies, more);
    for (Continued& c : more) continued.emplace_back(std::move(c), point.opening);
  }
  std::stable_sort(continued.begin(), continued.end(), [](const auto& a, const auto& b) {
    return a.first.loss < b.first.loss;
  });
  if (continued.size() > kContinued) continued.resize(kContinued);
  for (const auto& [c, opening] : continued) offer(c.line, best[0].second.gain - c.loss, opening);
  if (out.size() < kFewNamed) {  // no name was understood: any opening that the first moves go on from
    for (std::size_t i = 0; i < openings.size(); ++i) {
      if (const auto line = board::parse_line(Position::initial(), openings[i].moves)) {
        offer(*line, kUnnamed, i);
      }
    }
  }
  StartOption initial;
  initial.start.position = Position::initial();
  initial.start.how = "moves said";
  initial.gain = kMovesSaid + first_moves.of(initial.start.position, {});
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
