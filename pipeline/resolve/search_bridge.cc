// Moves that are made on the board and not named one by one.
//
//   bridge        one unsaid move, likely in itself, after which a reading is exactly a move
//   bridge_told   up to four, where the talk says what kind they are ("everything comes off")
//   twice         two moves in one breath ("both castle", "swap queens")
#include <algorithm>
#include <numeric>

#include "resolve/features.h"
#include "resolve/search_candidate.h"

namespace plyscribe::resolve {
namespace {

constexpr float kExact = 1.5F;      // nats: a reading after unsaid moves must fit as well as this
constexpr float kUnlikely = -4.5F;  // log probability: nobody leaves such a move unsaid
constexpr float kUnlikelyTold = -7.0F;
constexpr std::size_t kDeepest = 4;
constexpr std::size_t kLines = 60;  // of unsaid moves, looked at for one reading

// Indices of a line's moves, the likeliest first.
std::vector<std::size_t> by_likelihood(const Line& line) {
  std::vector<std::size_t> order(line.moves.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return line.log_probs[a] > line.log_probs[b];
  });
  return order;
}

struct Unsaid {
  std::vector<LineId> lines;
  float log_prob = 0;
};

// Which moves the talk may mean, as a continuation of what it has meant already.
std::vector<std::size_t> told_moves(const Line& line, board::Move last, Gap gap,
                                    std::size_t depth) {
  std::vector<std::size_t> out;
  std::size_t elsewhere = 0;
  for (const std::size_t i : by_likelihood(line)) {
    const board::Move m = line.moves[i];
    if (line.log_probs[i] < kUnlikelyTold) break;
    switch (gap) {
      case Gap::kOff: {
        if (!line.position.is_capture(m)) break;
        const bool back = depth > 0 && m.to() == last.to();
        // After a capture its answer; a new place to capture at only once that is done.
        if (depth > 0 && !back && (depth % 2 == 1 || elsewhere++ >= 2)) break;
        out.push_back(i);
        break;
      }
      case Gap::kCastle:
        if (m.kind() == board::Move::Kind::kCastling) out.push_back(i);
        break;
      case Gap::kMoves:
        if (depth < 2) out.push_back(i);
        break;
      case Gap::kNone:
        break;
    }
    if (out.size() >= (depth == 0 ? 5U : 3U)) break;
  }
  return out;
}

}  // namespace

// Offers `fit` as a new move at the cursor after the moves of `unsaid`; said: they were named with
// it.
void Search::offer_over(std::int32_t index, std::uint32_t reading, const Stance& stance,
                        const std::vector<LineId>& unsaid, float unsaid_log, const Fit& fit,
                        bool said) {
  const Hypothesis& h = hypotheses_[static_cast<std::size_t>(index)];
  const hearing::Reading& r = lesson_.lattice.readings[reading];
  const LineId between = unsaid.back();
  Candidate c;
  c.from = index;
  c.token = r.last;
  c.action = Action::kPlay;
  c.reading = reading;
  c.at = h.cursor;
  c.under = between;
  c.move = fit.move;
  c.line = line_hash(lines_.at(between).hash, fit.move);
  c.unsaid = unsaid;
  std::uint64_t tree = h.tree->hash ^ c.line;
  for (const LineId line : unsaid) tree ^= lines_.at(line).hash;
  c.key = merge_key(tree, c.line, c.action);
  const StepFacts facts{lesson_, lines_, reading, nullptr, 0, -99, false};
  Placement p;
  p.action = Action::kPlay;
  p.at = h.cursor;
  p.fit = &fit;
  p.unsaid = static_cast<int>(unsaid.size());
  p.unsaid_log = unsaid_log;
  p.gap = said ? Gap::kNone : lesson_.around[reading].gap;
  p.twice = said;
  c.score = h.score;
  c.gold = guide_ != nullptr && h.gold >= 0 ? guide_->after(h.gold, r.first, r.last, c.line) : -1;
  offer(stance, facts, p, std::move(c));
}

void Search::bridge(std::int32_t index, std::uint32_t reading, const Stance& stance) {
  const Hypothesis& h = hypotheses_[static_cast<std::size_t>(index)];
  const LineId here = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
  const Line& line = lines_.expand(here);
  const auto order = by_likelihood(line);
  for (std::size_t k = 0; k < std::min(config_.bridges, order.size()); ++k) {
    const float log_prob = line.log_probs[order[k]];
    if (log_prob < kUnlikely) break;
    const LineId between = lines_.child(here, line.moves[order[k]]);
    const auto next = fits(between, reading);
    for (std::size_t i = 0; i < std::min<std::size_t>(next.size(), 2); ++i) {
      if (next[i].match.cost > kExact) continue;
      offer_over(index, reading, stance, {between}, log_prob, next[i], false);
    }
  }
}

void Search::bridge_told(std::int32_t index, std::uint32_t reading, const Stance& stance) {
  const Hypothesis& h = hypotheses_[static_cast<std::size_t>(index)];
  const Gap gap = lesson_.around[reading].gap;
  std::vector<Unsaid> open = {{{h.tree->nodes[static_cast<std::size_t>(h.cursor)].line}, 0}};
  std::size_t seen = 0;
  for (std::size_t depth = 0; depth < kDeepest; ++depth) {
    std::vector<Unsaid> deeper;
    for (const Unsaid& u : open) {
      const LineId here = u.lines.back();
      const Line& line = lines_.expand(here);
      for (const std::size_t i : told_moves(line, line.move, gap, depth)) {
        if (++seen > kLines) return;
        Unsaid next = u;
        next.log_prob += line.log_probs[i];
        next.lines.push_back(lines_.child(here, line.moves[i]));
        const auto found = fits(next.lines.back(), reading);
        const std::vector<LineId> unsaid(next.lines.begin() + 1, next.lines.end());
        for (std::size_t f = 0; f < std::min<std::size_t>(found.size(), 2); ++f) {
          if (found[f].match.cost <= kExact) {
            offer_over(index, reading, stance, unsaid, next.log_prob, found[f], false);
          }
        }
        deeper.push_back(std::move(next));
      }
    }
    open = std::move(deeper);
  }
}

void Search::twice(std::int32_t index, std::uint32_t reading, const Stance& stance) {
  const Hypothesis& h = hypotheses_[static_cast<std::size_t>(index)];
  const hearing::Reading& r = lesson_.lattice.readings[reading];
  const LineId here = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
  const auto first = fits(here, reading);
  for (std::size_t i = 0; i < std::min<std::size_t>(first.size(), 3); ++i) {
    const LineId between = lines_.child(here, first[i].move);
    if (r.castle != 0) {
      for (const Fit& f : fits(between, reading)) {
        offer_over(index, reading, stance, {between}, first[i].log_prob, f, true);
      }
      continue;
    }
    const Line& line = lines_.expand(between);
    std::size_t tried = 0;
    for (const std::size_t k : by_likelihood(line)) {
      const board::Move m = line.moves[k];
      if (m.to() != first[i].move.to() || tried++ >= 2) continue;
      Fit back = first[i];
      back.move = m;
      back.mover = line.position.side_to_move();
      back.in_book = line.in_book;
      back.log_prob = line.log_probs[k];
      offer_over(index, reading, stance, {between}, first[i].log_prob, back, true);
    }
  }
}

}  // namespace plyscribe::resolve
