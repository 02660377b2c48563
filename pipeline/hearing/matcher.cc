#include "hearing/matcher.h"

#include <algorithm>

#include "grammar/grammar.h"
#include "hearing/units.h"

namespace plyscribe::hearing {
namespace {

using grammar::Element;
using grammar::Pattern;
using grammar::Unit;

constexpr float kWorst = 11.0F;  // nats: dearer readings are not kept
constexpr float kBreak = 2.0F;   // a punctuation mark inside a reading

template <std::size_t N>
void add_costs(std::array<float, N>& slot, const std::vector<float>& costs) {
  for (std::size_t i = 0; i < N; ++i) slot[i] += costs[i];
}

template <std::size_t N>
float lowest(const std::array<float, N>& slot) {
  return *std::min_element(slot.begin(), slot.end());
}

// Runs one pattern from one node and hands every reading on.
class Matcher {
 public:
  Matcher(const std::vector<Token>& tokens, const UnitGraph& g, std::vector<Reading>& out)
      : tokens_(tokens), g_(g), out_(out) {}

  void run(std::size_t token, std::uint16_t pattern) {
    Reading start;
    start.first = static_cast<std::uint32_t>(token);
    start.pattern = pattern;
    pattern_ = &grammar::grammar().patterns()[pattern];
    step(0, g_.node_of_token[token], start, false, 0);
  }

 private:
  void step(std::size_t element, std::uint32_t node, const Reading& r, bool repeated, int depth) {
    if (element == pattern_->elements.size()) {
      finish(node, r);
      return;
    }
    const Element& e = pattern_->elements[element];
    if (e.optional || repeated) step(element + 1, node, r, false, depth);
    if (depth > 7 || node >= g_.arcs.size()) return;
    for (const UnitArc& arc : g_.arcs[node]) {
      Reading next = r;
      if (!take(e.unit, arc, next)) continue;
      next.base += arc.cost;
      next.by_ear = next.by_ear || arc.by_ear;
      next.written = next.written || arc.written;
      if (next.base > kWorst) continue;
      // Punctuation before the arc, unless it is the first.
      if (depth > 0) {
        const std::int32_t t = g_.token_at_node[node];
        if (t > 0 && !tokens_[static_cast<std::size_t>(t) - 1].mark.empty()) {
          if (arc.unit == Unit::kGo || arc.unit == Unit::kTakes || next.breaks >= 1) continue;
          next.breaks = static_cast<std::uint8_t>(next.breaks + 1);
          if (arc.unit != Unit::kCheck && arc.unit != Unit::kMate) next.base += kBreak;
        }
      }
      if (e.repeats) {
        step(element, arc.to, next, true, depth + 1);
      } else {
        step(element + 1, arc.to, next, false, depth + 1);
      }
    }
  }

  // Lets the arc fill the element's slot; false where it does not fit.
  bool take(Unit wanted, const UnitArc& arc, Reading& r) const {
    switch (wanted) {
      case Unit::kVictim:
        if (arc.unit != Unit::kPiece) return false;
        r.has_victim = true;
        add_costs(r.victim, g_.vectors[arc.costs]);
        return true;
      case Unit::kPawn:
        return arc.unit == Unit::kPiece && arc.value == 'P';
      case Unit::kFromSquare: {
        if (arc.unit != Unit::kTo) return false;
        // A square is a file and a rank; its costs split well enough by row and column minima.
        const std::vector<float>& costs = g_.vectors[arc.costs];
        r.has_from_file = r.has_from_rank = true;
        const float best = *std::min_element(costs.begin(), costs.end());
        for (std::size_t i = 0; i < 8; ++i) {
          float by_file = kNever;
          float by_rank = kNever;
          for (std::size_t j = 0; j < 8; ++j) {
            by_file = std::min(by_file, costs[j * 8 + i]);
            by_rank = std::min(by_rank, costs[i * 8 + j]);
          }
          r.from_file[i] += by_file;
          r.from_rank[i] += by_rank - best;
        }
        return true;
      }
      case Unit::kCheck:
        if (arc.unit != Unit::kCheck && arc.unit != Unit::kMate) return false;
        (arc.unit == Unit::kMate ? r.mate : r.check) = true;
        return true;
      default:
        break;
    }
    if (arc.unit != wanted) return false;
    switch (wanted) {
      case Unit::kPiece:
        r.has_piece = true;
        add_costs(r.piece, g_.vectors[arc.costs]);
        return true;
      case Unit::kFile:
        if (r.takes && r.has_from_file) {  // "e takes d": the file it goes to
          r.has_to = true;
          const std::vector<float>& costs = g_.vectors[arc.costs];
          for (std::size_t square = 0; square < 64; ++square) r.to[square] += costs[square % 8];
          return true;
        }
        // "c takes d4" is a pawn unless a piece was named.
        if (!r.has_piece) {
          r.has_piece = true;
          r.piece.fill(kNever);
          r.piece[static_cast<std::size_t>(board::PieceType::kPawn)] = 0;
        }
        r.has_from_file = true;
        add_costs(r.from_file, g_.vectors[arc.costs]);
        return true;
      case Unit::kRank:
        r.has_from_rank = true;
        add_costs(r.from_rank, g_.vectors[arc.costs]);
        return true;
      case Unit::kTo:
        r.has_to = true;
        add_costs(r.to, g_.vectors[arc.costs]);
        return true;
      case Unit::kTakes:
        r.takes = true;
        return true;
      case Unit::kBoth:
      case Unit::kTwice:
        r.twice = true;
        return true;
      case Unit::kSwap:
        r.takes = r.twice = true;
        return true;
      case Unit::kOff:  // "the queens come off": like takes like
        r.takes = r.twice = r.has_victim = true;
        r.victim = r.piece;
        return true;
      case Unit::kCastle:
        r.castle = arc.value == 's' ? 2 : arc.value == 'l' ? 3 : 1;
        return true;
      case Unit::kPromote:
        r.promotion = piece_of(arc.value == 0 ? 'Q' : arc.value);
        return true;
      case Unit::kEnPassant:
        r.en_passant = true;
        r.takes = true;
        return true;
      case Unit::kSan:
        take_shape(g_.shapes[arc.shape], r);
        return true;
      default:
        return true;
    }
  }

  static void take_shape(const WrittenShape& s, Reading& r) {
    const WrittenChannel& channel = written_channel();
    r.castle = static_cast<std::uint8_t>(s.castle);
    r.takes = s.takes;
    r.check = s.check;
    r.mate = s.mate;
    if (s.promotion != 0) r.promotion = piece_of(s.promotion);
    if (s.castle != 0) return;
    r.has_piece = true;
    if (s.piece != 0) {
      r.piece = channel.piece(piece_of(s.piece));
    } else {
      r.piece.fill(kNever);
      r.piece[static_cast<std::size_t>(board::PieceType::kPawn)] = 0;
      if (s.from_file < 0) r.piece = channel.piece(board::PieceType::kPawn);
    }
    if (s.from_file >= 0) {
      r.has_from_file = true;
      r.from_file = channel.file(s.from_file);
    }
    if (s.from_rank >= 0) {
      r.has_from_rank = true;
      r.from_rank = channel.rank(s.from_rank);
    }
    if (s.to_file >= 0 || s.to_rank >= 0) {
      r.has_to = true;
      r.to = channel.square(s.to_file, s.to_rank);
    }
  }

  void finish(std::uint32_t node, Reading r) {
    if (node >= g_.token_at_node.size() || g_.token_at_node[node] < 0) return;
    r.last = static_cast<std::uint32_t>(g_.token_at_node[node]);
    if (r.last <= r.first) return;
    if (pattern_->elements[0].unit == Unit::kTo && !r.has_piece) {
      // A bare square is a pawn's move; a piece that goes there was named before or only shown.
      r.has_piece = true;
      r.piece = {kNever, 0.0F, 3.5F, 3.5F, 3.5F, 3.5F, 4.0F};
    }
    if (r.twice && r.has_victim && !r.has_piece) {  // "swap queens": like takes like
      r.has_piece = true;
      r.piece = r.victim;
    }
    r.best = r.base;
    if (r.has_piece) r.best += lowest(r.piece);
    if (r.has_to) r.best += lowest(r.to);
    if (r.has_from_file) r.best += lowest(r.from_file);
    if (r.has_from_rank) r.best += lowest(r.from_rank);
    if (r.has_victim) r.best += lowest(r.victim);
    if (r.best > kWorst) return;
    settle(r);
    out_.push_back(r);
  }

  const std::vector<Token>& tokens_;
  const UnitGraph& g_;
  std::vector<Reading>& out_;
  const Pattern* pattern_ = nullptr;
};

}  // namespace

std::vector<Reading> read_tokens(const std::vector<Token>& tokens, Script script) {
  const UnitGraph graph = find_units(tokens, script);
  std::vector<Reading> out;
  Matcher matcher(tokens, graph, out);
  const auto patterns = static_cast<std::uint16_t>(grammar::grammar().patterns().size());
  for (std::size_t token = 0; token < tokens.size(); ++token) {
    for (std::uint16_t p = 0; p < patterns; ++p) matcher.run(token, p);
  }
  return out;
}

}  // namespace plyscribe::hearing
