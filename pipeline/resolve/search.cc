#include "resolve/search.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "resolve/features.h"
#include "resolve/search_candidate.h"

namespace plyscribe::resolve {
namespace {

constexpr std::uint32_t kSweep = 64;  // tokens
constexpr std::size_t kFitBytes = std::size_t{192} << 20;  // kept for coming back, at most

}  // namespace

Search::Search(const Lesson& lesson, const Model& model, LineTree& lines,
               const SearchConfig& config)
    : lesson_(lesson), model_(model), lines_(lines), config_(config) {
  pending_.resize(lesson.lattice.tokens.size() + 1);
  beams_.resize(lesson.lattice.tokens.size() + 1);
  floor_at_.assign(lesson.lattice.tokens.size() + 1, -1e30F);
  std::size_t next = 0;
  const auto& [readings, primary] = std::tie(lesson.lattice.readings, lesson.lattice.primary);
  for (std::uint32_t t = 0; t <= lesson.lattice.tokens.size(); ++t) {
    while (next < primary.size() && readings[primary[next]].first < t) ++next;
    heard_.push_back(next);
  }
  weigh_contexts(0);
}

void Search::weigh_contexts(std::size_t from_reading) {
  const std::size_t readings = lesson_.lattice.readings.size();
  context_gain_.resize(from_reading * kActions);
  context_gain_.resize(readings * kActions, 0);
  for (std::size_t r = from_reading; r < readings; ++r) {
    for (std::uint32_t c : lesson_.around[r].contexts) {
      for (std::size_t a = 0; a < kActions; ++a) {
        context_gain_[r * kActions + a] +=
            model_.weights[model_.context_weight(c, static_cast<Action>(a))];
      }
    }
  }
}

Search::~Search() = default;

void Search::forget() {
  hypotheses_.clear();
  for (auto& p : pending_) p.clear();
  for (auto& b : beams_) b.clear();
  std::fill(floor_at_.begin(), floor_at_.end(), -1e30F);
  unheld_.clear();
  snapshots_.clear();
  staying_ = kNoLine;
  heard_first_ = SIZE_MAX;
}

namespace {

constexpr std::uint32_t kRecapTokens = 120;  // how the board came about is told at the beginning
constexpr std::size_t kRecapMoves = 12;      // of it, the last so many

// Readings of the lesson's beginning that name the last moves of the way to the start.
std::vector<std::uint32_t> recaps_of(const hearing::Lattice& lattice,
                                     const std::vector<board::Move>& way) {
  std::vector<board::Position> before = {board::Position::initial()};
  for (const board::Move m : way) before.push_back(before.back().after(m));
  std::vector<std::uint32_t> out;
  for (const std::uint32_t i : lattice.primary) {
    const hearing::Reading& r = lattice.readings[i];
    if (r.first > kRecapTokens) break;
    if (!r.has_to && r.castle == 0) continue;
    for (std::size_t k = way.size() > kRecapMoves ? way.size() - kRecapMoves : 0; k < way.size();
         ++k) {
      if (hearing::match(r, before[k], way[k], false).cost < 1.0F) {
        out.push_back(i);
        break;
      }
    }
  }
  return out;
}

}  // namespace

void Search::seed(Hypothesis h, const std::vector<board::Move>& way, bool stays) {
  if (stays) staying_ = h.tree->nodes[0].line;
  if (!way.empty()) recaps_[h.tree->nodes[0].line] = recaps_of(lesson_.lattice, way);
  Candidate c;
  c.carried = true;
  c.from = static_cast<std::int32_t>(hypotheses_.size());
  c.score = h.score;
  c.token = h.token;
  c.gold = h.gold;
  h.line = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
  c.line = lines_.at(h.line).hash;
  c.key = merge_key(h.tree->hash, c.line, h.last_action);
  hypotheses_.push_back(std::move(h));
  heard_first_ = std::min(heard_first_, heard_[c.token]);
  pending_[c.token].push_back(std::move(c));
}

bool Search::gold_pending(std::uint32_t after_token) const {
  for (std::size_t t = after_token + 1; t < pending_.size() && t < after_token + 12; ++t) {
    for (const Candidate& c : pending_[t]) {
      if (c.gold >= 0) return true;
    }
  }
  return false;
}

// Adds to a candidate's score what its placement gains; false if it is not to be kept. Features are
// collected in a second go, for what is.
bool Search::weigh_in(const Stance& stance, const StepFacts& facts, const Placement& placement,
                      Candidate& c) {
  FeatureSink gain(model_.weights, nullptr);
  placement_features(stance, facts, placement, gain);
  if (watch_ != nullptr) {
    Weighed w{c.action, c.reading, c.under, c.move, placement.unsaid, 0, {}};
    FeatureSink sink(model_.weights, &w.features);
    placement_features(stance, facts, placement, sink);
    for (std::uint32_t id : lesson_.around[c.reading].contexts) {
      w.features.emplace_back(model_.context_weight(id, c.action), 1.0F);
    }
    for (const auto& [id, value] : w.features) w.gain += model_.weights[id] * value;
    watch_->push_back(std::move(w));
    return false;
  }
  c.score += gain.gain() + context_gain_[c.reading * kActions + static_cast<std::size_t>(c.action)];
  if (c.gold < 0 && c.score < floor_at_[c.token]) return false;
  if (config_.keep_features) {
    c.features.clear();
    FeatureSink sink(model_.weights, &c.features);
    placement_features(stance, facts, placement, sink);
    for (std::uint32_t id : lesson_.around[c.reading].contexts) {
      c.features.emplace_back(model_.context_weight(id, c.action), 1.0F);
    }
  }
  return true;
}

void Search::offer(const Stance& stance, const StepFacts& facts, const Placement& placement,
                   Candidate&& c) {
  if (weigh_in(stance, facts, placement, c)) keep(c.token, std::move(c));
}

const std::vector<std::int32_t>& Search::step(std::uint32_t token) {
  if (config_.snapshots > 0 && token % config_.snapshots == 0) take_snapshot(token);
  auto& pending = pending_[token];
  auto& beam = beams_[token];
  beam.clear();
  lost_gold_ = false;
  for (Candidate* c : choose(token)) {
    if (c->carried) {
      hypotheses_[static_cast<std::size_t>(c->from)].token = token;
      hypotheses_[static_cast<std::size_t>(c->from)].gold = c->gold;
      beam.push_back(c->from);
    } else {
      hypotheses_.push_back(grown(*c));
      beam.push_back(static_cast<std::int32_t>(hypotheses_.size()) - 1);
    }
  }
  pending.clear();
  pending.shrink_to_fit();
  if (token >= tokens()) return beam;

  if (token % 16 == 0) drop_fits(token);
  if (token % kSweep == 0 && config_.snapshots == 0) drop_trees(beam);
  const PinnedTokens* pin = lesson_.pins.over(token, token + 1);
  if (pin != nullptr && pin->first == token && pin->pin.kind != Pin::Kind::kNoMove) {
    hold(token, *pin);
  } else {
    for (std::int32_t i : beam) expand(i);
  }
  return beam;
}

// Of a search that restarts nowhere: the trees of hypotheses from which nothing grows any more. Half
// an hour of talk would hold half a gigabyte of them.
void Search::drop_trees(const std::vector<std::int32_t>& beam) {
  std::vector<bool> growing(hypotheses_.size());
  for (const std::int32_t i : beam) growing[static_cast<std::size_t>(i)] = true;
  for (const auto& pending : pending_) {
    for (const Candidate& c : pending) growing[static_cast<std::size_t>(c.from)] = true;
  }
  for (std::size_t i = 0; i < hypotheses_.size(); ++i) {
    if (!growing[i]) hypotheses_[i].tree.reset();
  }
}

void Search::drop_fits(std::uint32_t token) {
  std::size_t bytes = 0;
  if (config_.snapshots > 0) {
    for (const auto& table : fit_tables_) bytes += table == nullptr ? 0 : table->bytes();
    if (bytes < kFitBytes) return;
  }
  std::vector<bool> wanted(fit_tables_.size());
  for (std::uint32_t r = 0; r < fit_tables_.size(); ++r) {
    if (lesson_.lattice.readings[r].last + 80 >= token) wanted[table_of(r)] = true;
  }
  for (std::size_t r = 0; r < fit_tables_.size(); ++r) {
    if (!wanted[r]) fit_tables_[r].reset();
  }
}

void Search::run(std::uint32_t from) {
  for (std::uint32_t t = from; t <= tokens(); ++t) step(t);
}

Hypothesis Search::grown(const Candidate& c) {
  const Hypothesis& from = hypotheses_[static_cast<std::size_t>(c.from)];
  Hypothesis h = from;
  h.parent = c.from;
  h.score = c.score;
  h.token = c.token;
  h.gold = c.gold;
  h.last_action = c.action;
  h.reading = c.reading;
  h.features = c.features;
  if (c.action == Action::kNone) {
    h.passed = {c.reading, from.passed[0], from.passed[1]};
    if (c.unfit) ++h.unfit;
    return h;
  }
  h.passed = {kNoReading, kNoReading, kNoReading};
  h.unfit = static_cast<std::uint16_t>(h.unfit / 2);  // a move that fits is no proof
  const hearing::Reading& r = lesson_.lattice.readings[c.reading];
  h.last_end = r.last;
  auto tree =
      std::make_shared<HypothesisTree>(from.tree->with_room(c.node < 0 ? c.unsaid.size() + 1 : 0));
  std::int32_t node = c.node;
  if (node < 0) {
    std::int32_t at = c.at;
    for (LineId line : c.unsaid) {
      const Line& l = lines_.at(line);
      const std::int32_t known = tree->child(at, l.move);
      at = known >= 0 ? known : tree->add(at, line, l, r.first, true);
    }
    const std::int32_t known = tree->child(at, c.move);
    const LineId line = lines_.child(c.under, c.move);
    node = known >= 0 ? known : tree->add(at, line, lines_.at(line), r.first, false);
  }
  TreeNode& n = tree->nodes[static_cast<std::size_t>(node)];
  n.last_token = r.last;
  n.unsaid = false;
  h.cursor = node;
  h.line = n.line;
  h.tree = std::move(tree);
  return h;
}

std::uint32_t Search::table_of(std::uint32_t reading) const {
  return reading < lesson_.same_as.size() ? lesson_.same_as[reading] : reading;  // a pin's: its own
}

FitTable& Search::fit_table(std::uint32_t reading) {
  if (fit_tables_.size() < lesson_.lattice.readings.size()) {
    fit_tables_.resize(lesson_.lattice.readings.size());
  }
  std::unique_ptr<FitTable>& table = fit_tables_[table_of(reading)];
  if (table == nullptr) table = std::make_unique<FitTable>(lesson_.lattice.readings[reading]);
  return *table;
}

Fits Search::fits(LineId line, std::uint32_t reading, FitTable& table) {
  if (const auto known = table.find(line)) return *known;
  const Line& l = lines_.expand(line);
  if (const PinnedTokens* pin = lesson_.pins.of_reading(reading)) {
    const std::optional<Fit> fit = pinned_fit(l, *pin);
    return table.put(line, fit ? Fits(&*fit, 1) : Fits());
  }
  BestFits best;
  return table.put(line, best_fits(lesson_.lattice.readings[reading], l, table.targets(), best));
}

void Search::expand(std::int32_t index) {
  const Hypothesis& h = hypotheses_[static_cast<std::size_t>(index)];
  const std::uint32_t token = h.token;
  const auto& first_at = lesson_.lattice.first_at;
  if (first_at[token] == first_at[token + 1]) {
    pass(index, nullptr);
    return;
  }
  const Stance stance = stance_of(h, lesson_);
  pass(index, &stance);
  const std::vector<std::uint8_t> referred = referred_nodes(stance);
  for (std::uint32_t r = first_at[token]; r < first_at[token + 1]; ++r) {
    if (lesson_.pins.over(token, lesson_.lattice.readings[r].last) == nullptr) {
      read(index, r, stance, referred);
    }
  }
}

std::vector<Weighed> Search::weigh(std::int32_t hypothesis, std::uint32_t token) {
  std::vector<Weighed> out;
  Hypothesis& h = hypotheses_[static_cast<std::size_t>(hypothesis)];
  const std::uint32_t stood = std::exchange(h.token, token);
  watch_ = &out;
  expand(hypothesis);
  watch_ = nullptr;
  h.token = stood;
  return out;
}

// On to the next token. To pass over a primary reading costs what the model says. `stance`: null
// where no reading begins.
void Search::pass(std::int32_t index, const Stance* stance) {
  const Hypothesis& h = hypotheses_[static_cast<std::size_t>(index)];
  Candidate c;
  c.from = index;
  c.score = h.score;
  c.token = h.token + 1;
  c.gold =
      guide_ != nullptr && h.gold >= 0 ? guide_->after(h.gold, h.token, h.token + 1, 0) : h.gold;
  const LineId here = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
  c.line = lines_.at(here).hash;
  const std::int32_t p = lesson_.lattice.primary_at[h.token];
  const hearing::Reading* primary =
      p < 0 ? nullptr
            : &lesson_.lattice.readings[lesson_.lattice.primary[static_cast<std::size_t>(p)]];
  const bool starts = stance != nullptr && primary != nullptr && primary->first == h.token;
  const PinnedTokens* pin = starts ? lesson_.pins.over(primary->first, primary->last) : nullptr;
  if (!starts || (pin != nullptr && pin->pin.kind != Pin::Kind::kNoMove)) {
    c.carried = true;
    c.key = merge_key(h.tree->hash, c.line, h.last_action);
    hypotheses_[static_cast<std::size_t>(index)].gold = c.gold;
    keep(c.token, std::move(c));
    return;
  }
  const std::uint32_t reading = lesson_.lattice.primary[static_cast<std::size_t>(p)];
  c.action = Action::kNone;
  c.reading = reading;
  c.key = merge_key(h.tree->hash, c.line, Action::kNone);
  if (pin != nullptr) {  // a person says so: no other way is open, so none needs a reason
    keep(c.token, std::move(c));
    return;
  }
  StepFacts facts{lesson_, lines_, reading, nullptr, 0, -99, false};
  if (const auto way = recaps_.find(h.tree->nodes[0].line); way != recaps_.end()) {
    facts.recap = std::binary_search(way->second.begin(), way->second.end(), reading);
  }
  for (const Fit& f : fits(here, reading)) {
    if ((f.match.mends & (hearing::kMendFile | hearing::kMendRank | hearing::kMendPiece)) == 0) {
      facts.best_here = std::max(facts.best_here, f.log_prob);
    }
  }
  FitTable& table = fit_table(reading);
  for (std::size_t n = 0; n < h.tree->nodes.size() && facts.known_matches == 0; ++n) {
    if ((stance->child_targets[n] & table.targets()) == 0) continue;
    for (const Fit& f : fits(h.tree->nodes[n].line, reading, table)) {
      if (f.match.cost > 1.0F) continue;
      if (stance->child(n, f.move) >= 0) {
        facts.known_matches = 1;
        break;
      }
    }
  }
  facts.fits_nowhere = facts.best_here < -50 && facts.known_matches == 0 && !facts.recap;
  c.unfit = facts.fits_nowhere;
  offer(*stance, facts, Placement{}, std::move(c));
}

// The nodes named by readings passed over since the cursor moved: 2 by the newest, 1 by an older
// one. Empty if there are none.
std::vector<std::uint8_t> Search::referred_nodes(const Stance& stance) {
  const Hypothesis& h = stance.h;
  const auto& nodes = h.tree->nodes;
  std::vector<std::uint8_t> referred;
  std::array<FitTable*, std::tuple_size_v<decltype(h.passed)>> tables{};
  std::size_t passed = 0;
  board::Bitboard targets = 0;
  for (; passed < tables.size() && h.passed[passed] != kNoReading; ++passed) {
    tables[passed] = &fit_table(h.passed[passed]);
    targets |= tables[passed]->targets();
  }
  for (std::size_t n = 0; n < nodes.size(); ++n) {
    if ((stance.child_targets[n] & targets) == 0) continue;
    for (std::size_t k = 0; k < passed; ++k) {
      if ((stance.child_targets[n] & tables[k]->targets()) == 0) continue;
      for (const Fit& f : fits(nodes[n].line, h.passed[k], *tables[k])) {
        if (f.match.cost > 1.5F) continue;
        const std::int32_t c = stance.child(n, f.move);
        if (c < 0) continue;
        referred.resize(nodes.size(), 0);
        std::uint8_t& mark = referred[static_cast<std::size_t>(c)];
        if (mark == 0) mark = k == 0 ? 2 : 1;
      }
    }
  }
  return referred;
}

void Search::read(std::int32_t index, std::uint32_t reading, const Stance& stance,
                  const std::vector<std::uint8_t>& referred) {
  const Hypothesis& h = hypotheses_[static_cast<std::size_t>(index)];
  const hearing::Reading& r = lesson_.lattice.readings[reading];
  const auto& nodes = h.tree->nodes;
  std::vector<Placement> found;
  StepFacts facts{lesson_, lines_, reading, referred.empty() ? nullptr : &referred, 0, -99, false};
  const bool pinned = reading >= lesson_.pins.first_reading;
  bool exact_here = false;
  const auto place = [&](std::size_t n, const Fit& f, std::int32_t known, Action action) {
    Placement p;
    p.at = static_cast<std::int32_t>(n);
    p.node = known;
    p.action = action;
    p.fit = &f;
    found.push_back(p);
  };
  FitTable& table = fit_table(reading);
  const auto try_at = [&](std::size_t n) {
    const std::int16_t up = stance.path_up[n];
    // Off the path, where moves have been told, only those may be told again.
    const bool only_known = up < 0 && nodes[n].children != 0 && !pinned;
    if (only_known && (stance.child_targets[n] & table.targets()) == 0) return;
    for (const Fit& f : fits(nodes[n].line, reading, table)) {
      const std::int32_t known = stance.child(n, f.move);
      if (known >= 0) {
        if (f.match.cost <= 1.5F) ++facts.known_matches;
        place(n, f, known, up == 0 ? Action::kWalk : Action::kBack);
      } else if (up == 0) {
        if (f.match.cost < 3.0F) exact_here = true;
        place(n, f, -1, Action::kPlay);
      } else if (up > 0) {
        // A mishearing is mended where the talk is, seldom far above it.
        if (up > 4 && f.match.cost > 4.0F) continue;
        place(n, f, -1, up == 1 ? Action::kSib : Action::kUp);
      } else if (!only_known && f.match.cost < 3.0F) {
        place(n, f, -1, Action::kJump);
      }
    }
  };
  if (r.strong) {
    for (std::size_t n = 0; n < nodes.size(); ++n) try_at(n);
  } else {  // weak readings are only tried near the cursor
    if (stance.path.size() > 1) try_at(static_cast<std::size_t>(stance.path[1]));
    try_at(static_cast<std::size_t>(stance.path[0]));
  }
  Candidate c;
  c.from = index;
  c.token = r.last;
  c.reading = reading;
  for (const Placement& x : found) {
    c.score = h.score;
    c.action = x.action;
    c.at = x.at;
    c.node = x.node;
    c.under = nodes[static_cast<std::size_t>(c.at)].line;
    c.move = x.fit->move;
    const auto line = [&] { return line_hash(lines_.at(c.under).hash, c.move); };
    c.gold = guide_ != nullptr && h.gold >= 0 ? guide_->after(h.gold, r.first, r.last, line()) : -1;
    if (!weigh_in(stance, facts, x, c)) continue;
    c.line = line();
    c.key = merge_key(c.node >= 0 ? h.tree->hash : h.tree->hash ^ c.line, c.line, c.action);
    keep(c.token, Candidate(c));
  }
  if (!exact_here && r.strong && !r.by_ear) bridge(index, reading, stance);
  if (lesson_.around[reading].gap != Gap::kNone) bridge_told(index, reading, stance);
  // "Castles" may stand for both sides'.
  if (r.twice || (r.castle != 0 && !r.by_ear)) twice(index, reading, stance);
}

}  // namespace plyscribe::resolve
