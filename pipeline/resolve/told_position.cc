// A position told in words, man by man: "White has the king on g1, rooks on d1 and e1 ... Black ...".
#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "board/notation.h"
#include "grammar/grammar.h"
#include "hearing/written.h"
#include "resolve/start.h"

namespace plyscribe::resolve {
namespace {

using board::Color;
using board::PieceType;
using board::Position;
using board::Square;
using hearing::Lattice;
using hearing::Token;

struct Man {
  Color color;
  PieceType type;
  Square square;
};

PieceType piece_word(const std::string& w) {
  static const std::array<std::pair<const char*, PieceType>, 18> words = {{
      {"king", PieceType::kKing}, {"queen", PieceType::kQueen}, {"queens", PieceType::kQueen},
      {"rook", PieceType::kRook}, {"rooks", PieceType::kRook}, {"rock", PieceType::kRook},
      {"rocks", PieceType::kRook}, {"bishop", PieceType::kBishop}, {"bishops", PieceType::kBishop},
      {"knight", PieceType::kKnight}, {"knights", PieceType::kKnight},
      {"night", PieceType::kKnight}, {"nights", PieceType::kKnight}, {"pawn", PieceType::kPawn},
      {"pawns", PieceType::kPawn}, {"pond", PieceType::kPawn}, {"ponds", PieceType::kPawn},
      {"prawns", PieceType::kPawn}}};
  for (const auto& [name, type] : words) {
    if (w == name) return type;
  }
  return PieceType::kNone;
}

// The side that a word names, also as it is misheard or with what belongs to it ("black's").
std::optional<Color> side_word(std::string_view w) {
  if (w.ends_with("'s")) w.remove_suffix(2);
  if (w == "white" || w == "whites" || w == "wide" || w == "weight") return Color::kWhite;
  if (w == "black" || w == "blacks" || w == "block") return Color::kBlack;
  return std::nullopt;
}

struct SaidSquare {
  Square square = board::kNoSquare;
  PieceType lettered = PieceType::kNone;  // "Kg1"
  std::uint32_t last = 0;                 // token after it
  bool counted = false;                   // rather a number of men
};

template <typename Costs>
std::size_t cheapest(const Costs& costs) {
  return static_cast<std::size_t>(std::min_element(costs.begin(), costs.end()) - costs.begin());
}

constexpr float kByEar = 2.0F;  // nats

// The squares that are said, by the token where each begins ("g1", "f eight", "age seven", "Kg1").
std::vector<SaidSquare> said_squares(const Lattice& lattice) {
  std::vector<SaidSquare> out(lattice.tokens.size());
  std::vector<float> best(lattice.tokens.size(), 4.0F);
  for (const auto& r : lattice.readings) {
    const std::string& pattern = grammar::grammar().patterns()[r.pattern].name;
    const bool bare = pattern == "to";
    const bool lettered = pattern == "san" && r.has_piece && r.has_to && !r.takes;
    if ((!bare && !lettered) || r.check || r.best >= best[r.first]) continue;
    // Dictation writes squares down; little words seldom are one ("these eight").
    if (r.by_ear && lattice.script == hearing::Script::kWritten && r.best >= kByEar) continue;
    best[r.first] = r.best;
    SaidSquare& s = out[r.first];
    s.square = static_cast<Square>(cheapest(r.to));
    s.lettered = lettered ? static_cast<PieceType>(cheapest(r.piece)) : PieceType::kNone;
    if (s.lettered == PieceType::kPawn) s.lettered = PieceType::kNone;
    s.last = r.last;
    const std::string& head = lattice.tokens[r.first].norm;
    const std::string next = r.last < lattice.tokens.size() ? lattice.tokens[r.last].norm : "";
    s.counted = r.last == r.first + 2 && (head == "and" || head == "the" || head == "then") &&
                (next == "in" || next == "at" || next == "on" || next == "more" ||
                 piece_word(next) != PieceType::kNone);
  }
  return out;
}

constexpr float kSlip = 10.0F;  // nats: that one of the men was misheard at all

bool build(const std::vector<Man>& men, Color to_move, Position& out) {
  Position p;
  std::array<bool, 64> taken{};
  int kings[2] = {0, 0};
  for (const Man& m : men) {
    if (taken[m.square]) return false;
    taken[m.square] = true;
    if (m.type == PieceType::kKing) ++kings[static_cast<int>(m.color)];
    p.put(m.color, m.type, m.square);
  }
  if (kings[0] != 1 || kings[1] != 1) return false;
  p.set_side(to_move);
  // Kings and rooks at home may castle only if somebody says so; a set-up keeps no rights.
  const auto checked = board::parse_fen(board::to_fen(p));
  if (!checked) return false;
  out = *checked;
  return true;
}

}  // namespace

std::vector<StartOption> told_positions(const Lattice& lattice) {
  const auto& tokens = lattice.tokens;
  const std::size_t limit = std::min<std::size_t>(tokens.size(), 420);
  std::vector<Man> men;
  Color color = Color::kWhite;
  PieceType type = PieceType::kNone;
  bool started = false;
  bool color_known = false;
  std::size_t last_man = 0, last_named = 0;
  std::size_t end = 0;
  int kings = 0;
  const auto squares = said_squares(lattice);
  for (std::size_t t = 0; t < limit; ++t) {
    const std::string& w = tokens[t].norm;
    // The list is over: whose move it is, or talk of something else.
    if (kings >= 2 && men.size() >= 4 && t > last_man + 12 && t > last_named + 6) break;
    if (kings >= 2 && w == "to" && t + 1 < limit &&
        (tokens[t + 1].norm == "move" || tokens[t + 1].norm == "play")) {
      break;
    }
    if (!men.empty() && t > last_man + 28) {
      if (kings >= 2) break;
      men.clear();  // squares said in passing, not a list
      kings = 0;
    }
    if (const auto side = side_word(w)) {
      color = *side;
      color_known = true;
      type = PieceType::kNone;
      last_named = t;
    }
    const PieceType named = piece_word(w);
    if (named != PieceType::kNone) {
      // The list begins with a king or a side that "has".
      if (!started && color_known) started = true;
      type = named;
      last_named = t;
      // "the three pawns in front of the king", "the three in front of the king"
      continue;
    }
    if (started && (w == "three" || w == "3") && t + 4 < limit && tokens[t + 1].norm == "in" &&
        tokens[t + 2].norm == "front") {
      for (const Man& m : std::vector<Man>(men)) {
        if (m.color != color || m.type != PieceType::kKing) continue;
        const int rank = color == Color::kWhite ? 1 : 6;
        for (int f = std::max(0, board::file_of(m.square) - 1);
             f <= std::min(7, board::file_of(m.square) + 1); ++f) {
          men.push_back({color, PieceType::kPawn, board::make_square(f, rank)});
        }
        last_man = t;
        end = t + 6;
      }
      continue;
    }
    const Square square = squares[t].square;
    if (!started || square == board::kNoSquare) continue;
    // "and three at home", "the three in front": a number of men, no square.
    if (squares[t].counted) continue;
    const PieceType lettered =
        squares[t].lettered == PieceType::kNone ? type : squares[t].lettered;
    if (lettered == PieceType::kNone) continue;
    if (lettered == PieceType::kKing) {
      // A second king of one side ends the list: somebody moves already.
      const bool again = std::any_of(men.begin(), men.end(), [&](const Man& m) {
        return m.type == PieceType::kKing && m.color == color;
      });
      if (again) break;
      ++kings;
    }
    // A man of the list is talked of: the list is over.
    const bool again = std::any_of(men.begin(), men.end(), [&](const Man& m) {
      return m.square == square && m.type == lettered && (m.color == color || kings >= 2);
    });
    if (again && men.size() >= 5) break;
    men.push_back({color, lettered, square});
    type = lettered;
    last_man = t;
    end = squares[t].last;
    t = end - 1;
  }
  if (kings < 2 || men.size() < 4) return {};

  Color to_move = Color::kWhite;
  std::size_t begin = end;  // of the lesson's moves: once it is said whose turn it is
  for (std::size_t t = end > 40 ? end - 40 : 0; t < std::min(tokens.size(), end + 40); ++t) {
    const std::string& w = tokens[t].norm;
    const std::string next = t + 1 < tokens.size() ? tokens[t + 1].norm : "";
    const std::string after = t + 2 < tokens.size() ? tokens[t + 2].norm : "";
    const auto side = side_word(w);
    const bool to = next == "to" && (after == "move" || after == "play");
    const bool turn = w.ends_with("'s") && (next == "move" || next == "turn" || next == "go");
    if (!side || (!to && !turn)) continue;
    to_move = *side;
    begin = std::max(begin, std::min(t + (to ? 3 : 2), tokens.size()));
  }

  std::vector<StartOption> out;
  const auto offer = [&](const std::vector<Man>& list, float gain) {
    Position p;
    if (!build(list, to_move, p)) return;
    StartOption option;
    option.start.position = p;
    option.start.how = "position told";
    option.gain = gain;
    option.token = static_cast<std::uint32_t>(begin);
    out.push_back(std::move(option));
  };
  offer(men, 0);
  // One square misheard; where the whole is impossible as heard, that is what must have happened.
  for (std::size_t i = 0; i < men.size(); ++i) {
    const auto costs = hearing::written_channel().square(board::file_of(men[i].square),
                                                         board::rank_of(men[i].square));
    for (std::size_t s = 0; s < 64; ++s) {
      if (s == men[i].square || costs[s] > 5.5F) continue;
      std::vector<Man> other = men;
      other[i].square = static_cast<Square>(s);
      offer(other, -costs[s] - kSlip);
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const StartOption& a, const StartOption& b) {
    return a.gain > b.gain;
  });
  if (out.size() > 110) out.resize(110);
  return out;
}

}  // namespace plyscribe::resolve
