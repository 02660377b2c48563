#include "resolve/conversion.h"

#include <algorithm>
#include <cmath>

#include "board/notation.h"

namespace plyscribe::resolve {
namespace {

constexpr double kTemperature = 1.6;      // the beam is surer of itself than it should be
constexpr double kLeastShare = 0.02;      // of an alternative that is worth telling
constexpr std::size_t kAlternatives = 4;  // told at most
constexpr std::size_t kNear = 8;          // readings on either side that bear on a move's confidence

class Conversion {
 public:
  Conversion(const Lesson& lesson, const Search& search, const LineTree& lines, const Model& model)
      : lesson_(lesson), search_(search), lines_(lines), model_(model) {}

  void run(const Hypothesis& best, Decoding& out) {
    nodes(best, out);
    LineId here = best.tree->nodes[0].line;
    for (std::int32_t i : best_chain(search_)) {
      const Hypothesis& h = search_.at(i);
      if (h.reading == kNoReading) continue;
      if (h.last_action == Action::kNone) {
        passed(h, here, out);
      } else {
        here = h.line;
        placed(h, out);
      }
    }
    weigh(out);
  }

 private:
  // What became of one reading, for those around it.
  struct Step {
    std::int32_t mention = -1;  // of a placed move
    bool placed = false, whole = false, mended = false;
  };

  // The signs that only what stands around can give, and the confidences that follow.
  void weigh(Decoding& out) const {
    std::vector<double> sure(out.nodes.size(), 1);  // by node: confidence of its first mention
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const Step& step = steps_[i];
      if (step.mention < 0) continue;
      Mention& m = out.mentions[static_cast<std::size_t>(step.mention)];
      if (m.settled) continue;
      float whole = 0, passed = 0, placed = 0, mended = 0;
      for (std::size_t k = i > kNear ? i - kNear : 0; k < std::min(steps_.size(), i + kNear + 1); ++k) {
        if (k == i) continue;
        whole += steps_[k].whole || steps_[k].placed ? 1.0F : 0.0F;
        passed += steps_[k].whole && !steps_[k].placed ? 1.0F : 0.0F;
        placed += steps_[k].placed ? 1.0F : 0.0F;
        mended += steps_[k].placed && steps_[k].mended ? 1.0F : 0.0F;
      }
      float next = 0, exact = 0;
      for (std::size_t k = i + 1; k < steps_.size() && next < 3; ++k) {
        if (!steps_[k].placed) continue;
        ++next;
        exact += steps_[k].mended ? 0.0F : 1.0F;
      }
      const auto node = static_cast<std::size_t>(m.node);
      const std::int32_t up = out.nodes[node].parent;
      m.evidence[Sign::kPassedNear] = passed / std::max(whole, 1.0F);
      m.evidence[Sign::kMendedNear] = mended / std::max(placed, 1.0F);
      m.evidence[Sign::kNextExact] = exact / std::max(next, 1.0F);
      m.evidence[Sign::kParent] =
          static_cast<float>(up < 0 ? 4.0 : log_odds(sure[static_cast<std::size_t>(up)], 4));
      if (up >= 0 && out.nodes[static_cast<std::size_t>(up)].unsaid) m.evidence[Sign::kBridged] = 1;
      m.evidence[Sign::kStart] = static_cast<float>(log_odds(out.start.confidence, 6));
      m.confidence = confidence(model_.confidence[static_cast<std::size_t>(lesson_.trust)], m.evidence);
      if (m.act == Act::kPlay) sure[node] = m.confidence;
    }
  }

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
    const LineId line = h.line;
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
    const auto fit = hearing::match(r, before.position, l.move, before.position.gives_check(l.move));
    m.share = 0;
    for (const auto& [line_then, share] : shares(r)) {
      if (line_then == line) {
        m.share = share;
      } else if (share >= kLeastShare) {
        m.alternatives.push_back({line_then == kNoLine ? "no move" : san(line_then), share});
      }
    }
    order(m.alternatives);
    m.evidence[Sign::kAlways] = 1;
    m.evidence[Sign::kShare] = static_cast<float>(log_odds(m.share, 6));
    m.evidence[Sign::kCost] = std::min(fit.cost, 12.0F);
    m.evidence[Sign::kMended] = m.as_heard ? 0 : 1;
    for (std::size_t i = 0; i < before.moves.size(); ++i) {
      if (before.moves[i] == l.move) {
        m.evidence[Sign::kPolicy] = std::max(before.log_probs[i], -10.0F);
      }
    }
    m.evidence[Sign::kSibling] = h.last_action == Action::kSib ? 1 : 0;
    m.evidence[Sign::kHigher] = h.last_action == Action::kUp ? 1 : 0;
    m.evidence[Sign::kJumped] = h.last_action == Action::kJump ? 1 : 0;
    m.evidence[Sign::kRevisit] = m.act == Act::kRevisit ? 1 : 0;
    m.evidence[Sign::kWeak] = r.strong ? 0 : 1;
    double others = 0;
    for (const Choice& c : m.alternatives) {
      if (c.san != "no move") others += c.share;
    }
    m.evidence[Sign::kLogShare] = static_cast<float>(-others);
    steps_.push_back({static_cast<std::int32_t>(out.mentions.size()), true, true, !m.as_heard});
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
    m.share = 0;
    for (const auto& [line, share] : shares(r)) {
      if (line == kNoLine) {
        m.share = share;
      } else if (share >= kLeastShare) {
        m.alternatives.push_back({san(line), share});
      }
    }
    order(m.alternatives);
    m.confidence = m.share;
    steps_.push_back({-1, false, r.strong && (r.has_to || r.castle != 0) && m.act == Act::kLoose, false});
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
  const Model& model_;
  std::map<LineId, std::int32_t> node_of_line_;
  std::vector<Step> steps_;  // in order of the words
};

}  // namespace

std::vector<std::int32_t> best_chain(const Search& search, std::uint32_t token) {
  std::vector<std::int32_t> chain;
  for (std::int32_t i = search.beam(token)[0]; i >= 0; i = search.at(i).parent) {
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
      line = h.line;
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

void convert(const Lesson& lesson, const Search& search, const LineTree& lines, const Model& model,
             Decoding& out) {
  const Hypothesis& best = search.at(search.beam(search.tokens())[0]);
  Conversion(lesson, search, lines, model).run(best, out);
}

}  // namespace plyscribe::resolve
