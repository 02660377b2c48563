// The search at pinned words, and the way back to them when a pin changes.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "board/notation.h"
#include "resolve/features.h"
#include "resolve/search.h"
#include "resolve/search_candidate.h"

namespace plyscribe::resolve {
namespace {

constexpr std::size_t kGaps = 4;  // ways over unsaid moves kept at one position
constexpr std::size_t kWide = 6;  // moves tried as the first of two unsaid ones

}  // namespace

// Unsaid moves after which the pinned move is legal.
struct Search::Bridge {
  std::vector<LineId> unsaid;  // the lines they lead to, in order
  float log_prob = 0;          // of them
  Fit fit;                     // the pinned move after them
};

// A pinned line, from the start position of one hypothesis.
struct Search::Route {
  struct Way {
    std::vector<LineId> lines;  // the start's, then one a move; shorter where a move is illegal
    std::string why;            // it is
  };
  std::map<LineId, Way> from;
};

std::optional<Fit> Search::pinned_fit(const Line& line, const PinnedTokens& pin) const {
  if (pin.pin.kind != Pin::Kind::kMove) return std::nullopt;
  const auto move = board::parse_san(line.position, pin.pin.san);
  if (!move) return std::nullopt;
  Fit fit;
  fit.move = *move;
  fit.mover = line.position.side_to_move();
  fit.in_book = line.in_book;
  fit.match.cost = 0;
  for (std::size_t i = 0; i < line.moves.size(); ++i) {
    if (line.moves[i] == fit.move) fit.log_prob = line.log_probs[i];
  }
  return fit;
}

Action Search::action_at(const Stance& stance, std::int32_t at) const {
  const std::int16_t up = stance.path_up[static_cast<std::size_t>(at)];
  return up == 0 ? Action::kPlay : up == 1 ? Action::kSib : up > 1 ? Action::kUp : Action::kJump;
}

// Every hypothesis does what the pin says; those that can't are dropped. If none can, all pass on.
void Search::hold(std::uint32_t token, const PinnedTokens& pin) {
  const std::vector<std::int32_t> beam = beams_[token];
  const auto& goal = pending_[pin.last];
  const auto held = [&] {  // what else may be there are lessons that begin there
    return std::any_of(goal.begin(), goal.end(), [](const Candidate& c) { return !c.carried; });
  };
  std::string why = "the lesson begins after these words";
  if (pin.pin.kind == Pin::Kind::kLine) {
    Route route;
    for (std::int32_t i : beam) hold_line(i, pin, route);
    if (!held() && !route.from.empty()) {
      const Hypothesis& best = hypotheses_[static_cast<std::size_t>(beam[0])];
      why = route.from.at(best.tree->nodes[0].line).why;
    }
  } else {
    for (std::int32_t i : beam) {
      const Hypothesis& h = hypotheses_[static_cast<std::size_t>(i)];
      const Stance stance = stance_of(h, lesson_);
      read(i, pin.reading, stance, referred_nodes(stance));
    }
    // Nowhere in sight: over one unsaid move from any position told, over two from the cursor.
    for (const bool two : {false, true}) {
      if (held()) break;
      std::map<LineId, std::vector<Bridge>> known;
      for (std::int32_t i : beam) {
        const Hypothesis& h = hypotheses_[static_cast<std::size_t>(i)];
        for (std::size_t n = 0; n < h.tree->nodes.size(); ++n) {
          const auto at = static_cast<std::int32_t>(n);
          if (two && at != h.cursor) continue;
          const auto [gaps, added] = known.try_emplace(h.tree->nodes[n].line);
          if (added) gaps->second = gaps_from(gaps->first, pin, two);
          hold_across(i, pin, at, gaps->second);
        }
      }
    }
    if (!held()) why = fmt::format("{} is legal nowhere near", pin.pin.san);
  }
  if (held()) {
    // Lessons that begin later would pass the pin by.
    for (std::size_t t = token + 1; t < pending_.size(); ++t) {
      std::erase_if(pending_[t], [](const Candidate& c) { return c.carried; });
    }
    return;
  }
  unheld_.emplace_back(token, std::move(why));
  for (std::int32_t i : beam) {
    const Hypothesis& h = hypotheses_[static_cast<std::size_t>(i)];
    Candidate c;
    c.from = i;
    c.score = h.score;
    c.token = pin.last;
    c.carried = true;
    c.line = lines_.at(h.tree->nodes[static_cast<std::size_t>(h.cursor)].line).hash;
    c.key = merge_key(h.tree->hash, c.line, h.last_action);
    keep(c.token, std::move(c));
  }
}

void Search::hold_line(std::int32_t index, const PinnedTokens& pin, Route& route) {
  const Hypothesis& h = hypotheses_[static_cast<std::size_t>(index)];
  const auto [way, added] = route.from.try_emplace(h.tree->nodes[0].line);
  std::vector<LineId>& lines = way->second.lines;
  if (added) {
    lines.push_back(way->first);
    for (const std::string& san : pin.pin.line) {
      const auto move = board::parse_san(lines_.at(lines.back()).position, san);
      if (!move) {
        way->second.why = fmt::format("move {} of its line, {}, is not legal", lines.size(), san);
        break;
      }
      lines.push_back(lines_.child(lines.back(), *move));
    }
  }
  if (!way->second.why.empty()) return;

  std::int32_t at = 0;
  std::int32_t node = 0;
  std::size_t known = 1;  // lines that are in the tree
  for (; known < lines.size(); ++known) {
    const std::int32_t next = h.tree->child(node, lines_.at(lines[known]).move);
    if (next < 0) break;
    at = node;
    node = next;
  }
  const LineId under = lines[lines.size() - 2];
  Fit fit;
  fit.move = lines_.at(lines.back()).move;
  fit.match.cost = 0;
  const Line& before = lines_.expand(under);
  fit.mover = before.position.side_to_move();
  fit.in_book = before.in_book;
  for (std::size_t i = 0; i < before.moves.size(); ++i) {
    if (before.moves[i] == fit.move) fit.log_prob = before.log_probs[i];
  }
  Candidate c;
  c.from = index;
  c.score = h.score;
  c.token = pin.last;
  c.reading = pin.reading;
  c.under = under;
  c.move = fit.move;
  c.line = lines_.at(lines.back()).hash;
  const Stance stance = stance_of(h, lesson_);
  Placement p;
  std::uint64_t tree = h.tree->hash;
  if (known == lines.size()) {
    c.at = at;
    c.node = node;
    c.action = at == h.cursor ? Action::kWalk : Action::kBack;
  } else {
    c.at = node;
    c.unsaid.assign(lines.begin() + static_cast<std::ptrdiff_t>(known), lines.end() - 1);
    for (std::size_t k = known; k < lines.size(); ++k) tree ^= lines_.at(lines[k]).hash;
    for (LineId unsaid : c.unsaid) {
      const Line& l = lines_.at(unsaid);
      const Line& from = lines_.expand(l.parent);
      for (std::size_t i = 0; i < from.moves.size(); ++i) {
        if (from.moves[i] == l.move) p.unsaid_log += from.log_probs[i];
      }
    }
    c.action = action_at(stance, c.at);
  }
  p.action = c.action;
  p.at = c.at;
  p.node = c.node;
  p.fit = &fit;
  p.unsaid = static_cast<int>(c.unsaid.size());
  c.key = merge_key(tree, c.line, c.action);
  const auto referred = referred_nodes(stance);
  const StepFacts facts{
      lesson_, lines_, pin.reading, referred.empty() ? nullptr : &referred, 1, -99, false};
  offer(stance, facts, p, std::move(c));
}

std::vector<Search::Bridge> Search::gaps_from(LineId line, const PinnedTokens& pin, bool two) {
  std::vector<Bridge> out;
  struct Try {
    LineId line;
    std::vector<LineId> unsaid;
    float log_prob;
  };
  std::vector<Try> tries = {{line, {}, 0}};
  for (int depth = 0; depth < (two ? 2 : 1); ++depth) {
    std::vector<Try> next;
    for (const Try& t : tries) {
      const Line from = lines_.expand(t.line);
      std::vector<std::size_t> order(from.moves.size());
      for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
      std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return from.log_probs[a] > from.log_probs[b];
      });
      if (two && depth == 0) order.resize(std::min(order.size(), kWide));
      std::size_t found = 0;
      for (std::size_t i : order) {
        const bool last = depth == (two ? 1 : 0);
        // The last unsaid move is made only where it helps.
        if (last && !board::parse_san(from.position.after(from.moves[i]), pin.pin.san)) continue;
        Try u = t;
        u.line = lines_.child(t.line, from.moves[i]);
        u.unsaid.push_back(u.line);
        u.log_prob += from.log_probs[i];
        next.push_back(std::move(u));
        if (last && ++found == kGaps) break;
      }
    }
    tries = std::move(next);
  }
  for (const Try& t : tries) {
    for (const Fit& f : fits(t.line, pin.reading)) out.push_back({t.unsaid, t.log_prob, f});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const Bridge& a, const Bridge& b) { return a.log_prob > b.log_prob; });
  if (out.size() > kGaps) out.resize(kGaps);
  return out;
}

void Search::hold_across(std::int32_t index, const PinnedTokens& pin, std::int32_t at,
                         const std::vector<Bridge>& gaps) {
  const Hypothesis& h = hypotheses_[static_cast<std::size_t>(index)];
  const Stance stance = stance_of(h, lesson_);
  for (const Bridge& gap : gaps) {
    Candidate c;
    c.from = index;
    c.score = h.score;
    c.token = pin.last;
    c.action = action_at(stance, at);
    c.reading = pin.reading;
    c.at = at;
    c.under = gap.unsaid.back();
    c.move = gap.fit.move;
    c.unsaid = gap.unsaid;
    c.line = line_hash(lines_.at(c.under).hash, c.move);
    std::uint64_t tree = h.tree->hash ^ c.line;
    std::int32_t node = at;  // -1 once the way has left the tree
    for (LineId unsaid : gap.unsaid) {
      if (node >= 0) node = h.tree->child(node, lines_.at(unsaid).move);
      if (node < 0) tree ^= lines_.at(unsaid).hash;
    }
    c.key = merge_key(tree, c.line, c.action);
    Placement p;
    p.action = c.action;
    p.at = at;
    p.fit = &gap.fit;
    p.unsaid = static_cast<int>(gap.unsaid.size());
    p.unsaid_log = gap.log_prob;
    const StepFacts facts{lesson_, lines_, pin.reading, nullptr, 0, -99, false};
    offer(stance, facts, p, std::move(c));
  }
}

std::vector<UnheldPin> Search::unheld() const {
  std::vector<UnheldPin> out;
  for (const auto& [token, why] : unheld_) {
    out.push_back({lesson_.pins.over(token, token + 1)->index, why});
  }
  return out;
}

void Search::take_snapshot(std::uint32_t token) {
  while (!snapshots_.empty() && snapshots_.back().token >= token) snapshots_.pop_back();
  Snapshot s;
  s.token = token;
  s.hypotheses = hypotheses_.size();
  s.unheld = unheld_.size();
  for (std::uint32_t t = token; t < pending_.size(); ++t) {
    if (pending_[t].empty()) continue;
    s.pending.emplace_back(t, pending_[t]);
    s.floor_at.push_back(floor_at_[t]);
  }
  snapshots_.push_back(std::move(s));
}

std::uint32_t Search::rewind(std::uint32_t token) {
  while (!snapshots_.empty() && snapshots_.back().token > token) snapshots_.pop_back();
  weigh_contexts(
      std::min<std::size_t>(lesson_.pins.first_reading, context_gain_.size() / kActions));
  if (fit_tables_.size() > lesson_.pins.first_reading) {
    fit_tables_.resize(lesson_.pins.first_reading);
  }
  const Snapshot& s = snapshots_.back();
  hypotheses_.resize(s.hypotheses);
  unheld_.resize(s.unheld);
  for (std::uint32_t t = s.token; t < pending_.size(); ++t) {
    pending_[t].clear();
    beams_[t].clear();
    floor_at_[t] = -1e30F;
  }
  for (std::size_t k = 0; k < s.pending.size(); ++k) {
    pending_[s.pending[k].first] = s.pending[k].second;
    floor_at_[s.pending[k].first] = s.floor_at[k];
  }
  return s.token;
}

}  // namespace plyscribe::resolve
