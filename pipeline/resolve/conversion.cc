#include "resolve/conversion.h"

#include <algorithm>
#include <cmath>

#include "board/notation.h"

namespace plyscribe::resolve {
namespace {

constexpr double kTemperature = 1.6;      // the beam is surer of itself than it should be
constexpr double kLeastShare = 0.02;      // of an alternative that is worth telling
constexpr std::size_t kAlternatives = 4;  // told at most

class Conversion {
 public:
  Conversion(const Lesson& lesson, const Search& search, const LineTree& lines)
      : lesson_(lesson), search_(search), lines_(lines) {}

  void run(const Hypothesis& best, Decoding& out) {
    nodes(best, out);
    LineId here = best.tree->nodes[0].line;
    for (std::int32_t i : best_chain(search_)) {
      const Hypothesis& h = search_.at(i);
      if (h.reading == kNoReading) continue;
      if (h.last_action == Action::kNone) {
        passed(h, here, out);
      } else {
        here = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
        placed(h, out);
      }
    }
  }

 private:
  void nodes(const Hypothesis& best, Decoding& out) {
    for (const TreeNode& n : best.tree->nodes) {
      const Line& line = lines_.at(n.line);
      Node node;
      node.parent = n.parent;
      node.move = line.move;
      node.position = line.position;
      node.unsaid = n.unsaid;
      node_of_line_[n.line] = static_cast<std::int32_t>(out.nodes.size());
      out.nodes.push_back(node);
    }
  }

  std::pair<std::uint32_t, std::uint32_t> words(const hearing::Reading& r) const {
    return {lesson_.lattice.tokens[r.first].word, lesson_.lattice.tokens[r.last - 1].word + 1};
  }

  std::string san(LineId line) const {
    const Line& l = lines_.at(line);
    return board::to_san(lines_.at(l.parent).position, l.move);
  }

  static bool as_heard(const hearing::Reading& r, const board::Position& p, board::Move move) {
    const auto fit = hearing::match(r, p, move, p.gives_check(move));
    return fit.ok() && (fit.mends & (kHeardOtherwise | hearing::kCaptureFalse)) == 0;
  }

  // Does any reading inside these words name the move as they stand?
  bool heard_in(std::uint32_t first, std::uint32_t last, const board::Position& p,
                board::Move move) const {
    const auto& lattice = lesson_.lattice;
    for (std::uint32_t i = lattice.first_at[first]; i < lattice.first_at[last]; ++i) {
      if (lattice.readings[i].last <= last && as_heard(lattice.readings[i], p, move)) return true;
    }
    return false;
  }

  // Best first; equal shares by name, so that the order owes nothing to that of the search.
  static void order(std::vector<Choice>& choices) {
    std::stable_sort(choices.begin(), choices.end(), [](const Choice& a, const Choice& b) {
      return a.share != b.share ? a.share > b.share : a.san < b.san;
    });
    if (choices.size() > kAlternatives) choices.resize(kAlternatives);
  }

  std::map<LineId, double> shares(const hearing::Reading& r) const {
    return beam_shares(lesson_, search_, r.last + kHindsight, r.first, r.last);
  }

  void placed(const Hypothesis& h, Decoding& out) {
    const hearing::Reading& r = lesson_.lattice.readings[h.reading];
    Mention m;
    std::tie(m.first_word, m.last_word) = words(r);
    const LineId line = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
    m.act = h.last_action == Action::kBack || h.last_action == Action::kWalk ? Act::kRevisit
                                                                             : Act::kPlay;
    m.node = node_of_line_.at(line);
    const Line& l = lines_.at(line);
    const Line& before = lines_.at(l.parent);
    if (h.reading >= lesson_.pins.first_reading) {
      m.settled = true;
      m.as_heard = heard_in(r.first, r.last, before.position, l.move);
      out.mentions.push_back(std::move(m));
      return;
    }
    m.as_heard = as_heard(r, before.position, l.move);
    m.confidence = 0;
    for (const auto& [line_then, share] : shares(r)) {
      if (line_then == line) {
        m.confidence = share;
      } else if (share >= kLeastShare) {
        m.alternatives.push_back({line_then == kNoLine ? "no move" : san(line_then), share});
      }
    }
    order(m.alternatives);
    out.mentions.push_back(std::move(m));
  }

  // What was passed over: an idea where it could be played by either side, else loose if the words
  // are a whole move, else talk.
  void passed(const Hypothesis& h, LineId here, Decoding& out) {
    const hearing::Reading& r = lesson_.lattice.readings[h.reading];
    Mention m;
    std::tie(m.first_word, m.last_word) = words(r);
    m.node = node_of_line_.at(here);
    const board::Position& p = lines_.at(here).position;
    board::Position other = p;
    other.set_side(~p.side_to_move());
    m.act = Act::kLoose;
    for (const board::Position* side : std::initializer_list<const board::Position*>{&p, &other}) {
      if (side == &other && p.in_check()) break;
      board::MoveList moves;
      side->legal_moves(moves);
      float best = 1.6F;
      for (board::Move move : moves) {
        const auto fit = hearing::match(r, *side, move, false);
        if (fit.cost < best) {
          best = fit.cost;
          m.act = Act::kIdea;
          m.idea = board::to_san(*side, move);
        }
      }
      if (m.act == Act::kIdea) break;
    }
    const PinnedTokens* pin = lesson_.pins.over(r.first, r.last);
    if (pin != nullptr) {
      m.settled = true;
      if (m.act == Act::kIdea) out.mentions.push_back(std::move(m));
      return;  // nothing is loose where a person says that no move was named
    }
    m.confidence = 0;
    for (const auto& [line, share] : shares(r)) {
      if (line == kNoLine) {
        m.confidence = share;
      } else if (share >= kLeastShare) {
        m.alternatives.push_back({san(line), share});
      }
    }
    order(m.alternatives);
    if (m.act == Act::kLoose) {
      const bool whole =
          (r.has_piece && r.has_to && r.best < 1.0F) || (r.takes && r.has_to) || r.castle != 0;
      if (!whole) return;  // a square that is only looked at
      m.why = "no legal move here fits these words";
    }
    out.mentions.push_back(std::move(m));
  }

  const Lesson& lesson_;
  const Search& search_;
  const LineTree& lines_;
  std::map<LineId, std::int32_t> node_of_line_;
};

}  // namespace

std::vector<std::int32_t> best_chain(const Search& search) {
  std::vector<std::int32_t> chain;
  for (std::int32_t i = search.beam(search.tokens())[0]; i >= 0; i = search.at(i).parent) {
    chain.push_back(i);
  }
  std::reverse(chain.begin(), chain.end());
  return chain;
}

LineId placed_on(const Lesson& lesson, const Search& search, std::int32_t hypothesis,
                 std::uint32_t first, std::uint32_t last) {
  LineId line = kNoLine;
  for (std::int32_t i = hypothesis; i >= 0; i = search.at(i).parent) {
    const Hypothesis& h = search.at(i);
    if (h.reading == kNoReading) continue;
    const hearing::Reading& r = lesson.lattice.readings[h.reading];
    if (r.last <= first) break;
    if (r.first < last && h.last_action != Action::kNone) {
      line = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
      if (r.first <= first) break;
    }
  }
  return line;
}

std::map<LineId, double> beam_shares(const Lesson& lesson, const Search& search, std::uint32_t when,
                                     std::uint32_t first, std::uint32_t last) {
  when = std::min(search.tokens(), when);
  while (when < search.tokens() && search.beam(when).empty()) ++when;  // inside a pin
  std::map<LineId, double> out;
  const auto& beam = search.beam(when);
  if (beam.empty()) return out;
  const double top = static_cast<double>(search.at(beam[0]).score);
  double sum = 0;
  for (std::int32_t i : beam) {
    const double w = std::exp((static_cast<double>(search.at(i).score) - top) / kTemperature);
    sum += w;
    out[placed_on(lesson, search, i, first, last)] += w;
  }
  for (auto& [line, w] : out) w /= sum;
  return out;
}

void convert(const Lesson& lesson, const Search& search, const LineTree& lines, Decoding& out) {
  const Hypothesis& best = search.at(search.beam(search.tokens())[0]);
  Conversion(lesson, search, lines).run(best, out);
}

}  // namespace plyscribe::resolve
