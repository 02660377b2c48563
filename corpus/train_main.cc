// train: fits the model's weights from lessons with gold trees.
//
//   train --out pipeline/resolve/weights.tsv    corpus/lessons and corpus/practice
//   train --fold 0 --folds 6                    scores fold 0, held out
//
// The search runs with gold mentions as guide. Where the gold hypothesis leaves the beam, or after
// a window of mentions, the weights move towards it (a conditional random field over the beam,
// early update), and the search restarts from gold there: a reset. Scores of held-out lessons are
// edge F1 with the start given, and resets per 100 mentions.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <random>
#include <sstream>

#include "board/notation.h"
#include "corpus/fit_confidence.h"
#include "corpus/fit_policy.h"
#include "corpus/gold.h"
#include "lexicon/openings.h"
#include "resolve/decode.h"
#include "resolve/policy.h"
#include "resolve/search.h"
#include "transcript/transcript.h"

namespace {

using namespace plyscribe;           // NOLINT(google-build-using-namespace): a program of its own
using namespace plyscribe::resolve;  // NOLINT(google-build-using-namespace)
namespace fs = std::filesystem;

struct Event {
  corpus::Span span;
  std::uint64_t line = 0;  // its hash
  int node = 0;
};

struct Sample {
  std::string name;  // lesson/form
  std::string lesson;
  std::string form;
  corpus::Gold gold;
  Lesson prepared;
  std::vector<Context> contexts;
  std::unique_ptr<corpus::Alignment> alignment;
  transcript::Transcript transcript;
};

// Accepts a candidate that does the next gold event, or passes on before it is due.
class GoldGuide : public Guide {
 public:
  explicit GoldGuide(const std::vector<Event>& events) : events_(events) {}
  std::int32_t after(std::int32_t before, std::uint32_t first, std::uint32_t last,
                     std::uint64_t line) const override {
    const auto k = static_cast<std::size_t>(before);
    if (line == 0) {
      if (k < events_.size() && events_[k].span.hi + 1 <= last && events_[k].span.hi <= first + 1)
        return -1;
      return before;
    }
    if (k >= events_.size()) return -1;
    const Event& e = events_[k];
    if (k + 1 < events_.size() && events_[k + 1].line == line &&
        events_[k + 1].span.lo < e.span.hi && first < e.span.hi && last > e.span.lo &&
        events_[k + 1].node != e.node) {
      return before + 2;  // two in one breath
    }
    if (e.line != line) return -1;
    if (last + 1 < e.span.lo + 1 || first > e.span.hi) return -1;
    if (last <= e.span.lo && e.span.lo > 0) return -1;
    return before + 1;
  }

 private:
  const std::vector<Event>& events_;
};

std::vector<Event> events_of(const Sample& s, LineTree& lines, std::vector<LineId>& line_of_node) {
  line_of_node.assign(s.gold.nodes.size(), kNoLine);
  line_of_node[0] = lines.root(s.gold.nodes[0].position);
  for (std::size_t n = 1; n < s.gold.nodes.size(); ++n) {
    line_of_node[n] = lines.child(line_of_node[static_cast<std::size_t>(s.gold.nodes[n].parent)],
                                  s.gold.nodes[n].move);
  }
  std::vector<Event> out;
  for (const auto& m : s.gold.mentions) {
    out.push_back({s.alignment->tokens(m.first, m.last),
                   lines.at(line_of_node[static_cast<std::size_t>(m.node)]).hash, m.node});
  }
  return out;
}

// The gold hypothesis after k events.
Hypothesis gold_hypothesis(const Sample& s, const std::vector<Event>& events, LineTree& lines,
                           const std::vector<LineId>& line_of_node, std::size_t k) {
  auto tree = std::make_shared<HypothesisTree>();
  TreeNode root;
  root.line = line_of_node[0];
  tree->nodes.push_back(root);
  tree->hash = lines.at(root.line).hash;
  std::map<int, std::int32_t> index = {{0, 0}};
  const auto ensure = [&](auto&& self, int node, std::uint32_t token, bool unsaid) -> std::int32_t {
    const auto known = index.find(node);
    if (known != index.end()) return known->second;
    const std::int32_t at =
        self(self, s.gold.nodes[static_cast<std::size_t>(node)].parent, token, true);
    const LineId line = line_of_node[static_cast<std::size_t>(node)];
    return index[node] = tree->add(at, line, lines.at(line), token, unsaid);
  };
  Hypothesis h;
  for (std::size_t i = 0; i < k; ++i) {
    const std::int32_t n = ensure(ensure, events[i].node, events[i].span.lo, false);
    tree->nodes[static_cast<std::size_t>(n)].last_token = events[i].span.hi;
    tree->nodes[static_cast<std::size_t>(n)].unsaid = false;
    h.cursor = n;
  }
  h.token = k == 0 ? 0 : events[k - 1].span.hi;
  h.last_end = h.token;
  h.last_action = k == 0 ? Action::kNone : Action::kPlay;
  h.gold = static_cast<std::int32_t>(k);
  h.tree = std::move(tree);
  return h;
}

// AdaGrad with a little decay.
class Learner {
 public:
  Learner(Model& model, float rate, float decay) : model_(model), rate_(rate), decay_(decay) {
    squares_.assign(model.weights.size(), 1e-2F);
    sums_.assign(model.weights.size(), 0);
  }
  void add(const SparseFeatures& f, float scale) {
    for (const auto& [id, v] : f) {
      gradient_[id] += scale * v;
    }
  }
  void update() {
    ++steps_;
    for (const auto& [id, raw] : gradient_) {
      if (raw == 0) continue;
      const float g = raw - decay_ * model_.weights[id];
      squares_[id] += g * g;
      const float move = rate_ * g / std::sqrt(squares_[id]);
      model_.weights[id] += move;
      sums_[id] += static_cast<double>(steps_) * static_cast<double>(move);
    }
    gradient_.clear();
  }
  // Average over all updates.
  std::vector<float> averaged() const {
    std::vector<float> out = model_.weights;
    for (std::size_t i = 0; i < out.size(); ++i) {
      out[i] -= static_cast<float>(sums_[i] / static_cast<double>(steps_ + 1));
    }
    return out;
  }

 private:
  Model& model_;
  float rate_, decay_;
  std::vector<float> squares_;
  std::vector<double> sums_;
  std::map<std::uint32_t, float> gradient_;
  long steps_ = 0;
};

struct Tally {
  int mentions = 0, resets = 0, unreachable = 0;
  double loss = 0;  // nats, -log share of the gold hypotheses in the beam
  std::map<std::string, int> lost;
};

std::string describe(const Sample& s, const Event& e, const Lesson& lesson) {
  std::string words;
  for (std::uint32_t t = e.span.lo > 6 ? e.span.lo - 6 : 0;
       t < std::min<std::uint32_t>(e.span.hi + 3,
                                   static_cast<std::uint32_t>(lesson.lattice.tokens.size()));
       ++t) {
    if (t == e.span.lo) words += "[";
    words += lesson.lattice.tokens[t].raw + lesson.lattice.tokens[t].mark;
    if (t + 1 == e.span.hi) words += "]";
    words += " ";
  }
  const auto& node = s.gold.nodes[static_cast<std::size_t>(e.node)];
  return fmt::format(
      "{} <- {}",
      board::to_san(s.gold.nodes[static_cast<std::size_t>(node.parent)].position, node.move),
      words);
}

// How a gold move can be read in its words.
struct Heard {
  float cost = 99;    // nats, of the best reading that names it; 99: none does
  bool kept = false;  // it is among the fits that the search weighs
};

Heard heard_move(const Sample& s, const Event& e, Search& search,
                 const std::vector<LineId>& line_of_node) {
  Heard out;
  const auto& node = s.gold.nodes[static_cast<std::size_t>(e.node)];
  const auto parent = static_cast<std::size_t>(node.parent);
  const auto& before = s.gold.nodes[parent].position;
  const auto& readings = s.prepared.lattice.readings;
  for (std::size_t r = 0; r < readings.size(); ++r) {
    if (readings[r].last <= e.span.lo || readings[r].first >= e.span.hi) continue;
    out.cost = std::min(
        out.cost, hearing::match(readings[r], before, node.move, before.gives_check(node.move)).cost);
    for (const Fit& f : search.fits(line_of_node[parent], static_cast<std::uint32_t>(r))) {
      out.kept = out.kept || f.move == node.move;
    }
  }
  return out;
}

// Why the search could not do the event from the gold tree before it.
std::string obstacle(const Sample& s, const std::vector<Event>& events, std::size_t k,
                     Search& search, const std::vector<LineId>& line_of_node) {
  const Event& e = events[k];
  std::set<int> known = {0};
  for (std::size_t i = 0; i < k; ++i) {
    for (int n = events[i].node; n > 0; n = s.gold.nodes[static_cast<std::size_t>(n)].parent)
      known.insert(n);
  }
  const int parent = s.gold.nodes[static_cast<std::size_t>(e.node)].parent;
  int missing = 0;
  for (int n = parent; known.count(n) == 0; n = s.gold.nodes[static_cast<std::size_t>(n)].parent)
    ++missing;
  const Heard heard = heard_move(s, e, search, line_of_node);
  int up = -1;
  int climbed = 0;
  for (int n = k == 0 ? 0 : events[k - 1].node; n >= 0;
       n = s.gold.nodes[static_cast<std::size_t>(n)].parent, ++climbed) {
    if (n == parent) up = climbed;
  }
  const std::string where = missing > 0 ? fmt::format("{} unsaid", missing)
                            : up >= 0   ? fmt::format("up {}", up)
                                        : "off the path";
  const bool twice = k > 0 && events[k - 1].span.hi > e.span.lo;
  return fmt::format("{}{}, {}", where, twice ? ", same words" : "",
                     heard.cost > 90 ? "no reading"
                     : !heard.kept   ? fmt::format("read at {:.1f}, not kept", heard.cost)
                                     : fmt::format("read at {:.1f}", heard.cost));
}

// The first place at or after k where no words are cut in two ("takes takes" is two events).
std::size_t between_words(const std::vector<Event>& events, std::size_t k) {
  while (k > 0 && k < events.size() && events[k].span.lo < events[k - 1].span.hi) ++k;
  return std::min(k, events.size());
}

// The beam at a token, as an update sees it.
struct Judgement {
  struct Member {
    std::int32_t hypothesis;
    double share;  // of the beam's probability
    double right;  // of the right ones' probability
  };
  std::vector<Member> members;
  double gold = 0;  // the right ones' share of the beam's
  double behind;    // nats from the best to the best right one

  Judgement(const Search& search, const std::vector<std::int32_t>& beam) {
    double top = -1e30;
    double top_right = -1e30;
    for (std::int32_t i : beam) {
      const auto score = static_cast<double>(search.at(i).score);
      top = std::max(top, score);
      if (search.at(i).gold >= 0) top_right = std::max(top_right, score);
    }
    double all = 0;
    double all_right = 0;
    for (std::int32_t i : beam) {
      const Hypothesis& h = search.at(i);
      const double right = h.gold < 0 ? 0 : std::exp(static_cast<double>(h.score) - top_right);
      members.push_back({i, std::exp(static_cast<double>(h.score) - top), right});
      all += members.back().share;
      all_right += right;
    }
    for (Member& m : members) {
      m.share /= all;
      if (m.right > 0) {
        m.right /= all_right;
        gold += m.share;
      }
    }
    behind = top - top_right;
  }
  bool any_gold() const { return behind < 1e29; }
};

// Moves the weights towards the right hypotheses.
void learn_from(const Judgement& beam, const Search& search, Learner& learner) {
  std::map<std::int32_t, double> scale;  // ancestors shared: sum weights, then add once
  for (const Judgement::Member& m : beam.members) {
    const double w = m.right - m.share;
    if (std::abs(w) > 1e-5) scale[m.hypothesis] += w;
  }
  while (!scale.empty()) {
    const auto last = std::prev(scale.end());
    const auto [i, w] = *last;
    scale.erase(last);
    if (std::abs(w) < 1e-6) continue;
    const Hypothesis& h = search.at(i);
    learner.add(h.features, static_cast<float>(w));
    if (h.parent >= 0) scale[h.parent] += w;
  }
  learner.update();
}

// What the best hypothesis gains over the right one, by what is weighed: where the model is wrong.
using Debts = std::map<std::string, double>;

std::string weighed_by(const Model& model, std::uint32_t id) {
  if (id < structural_features()) {
    std::size_t slot = 0;
    while (kSlotOffsets[slot + 1] <= id) ++slot;
    return fmt::format("slot:{}", kSlotShapes[slot].name);
  }
  const auto context = static_cast<std::uint32_t>((id - structural_features()) / kActions);
  const std::string& name = model.context_name(context);
  return name.substr(0, name.find('='));
}

constexpr std::array<const char*, kActions> kActionNames = {"play", "walk", "sib", "up",
                                                            "back", "jump", "none"};

std::string around(const Lesson& lesson, std::uint32_t first, std::uint32_t last) {
  const auto& tokens = lesson.lattice.tokens;
  std::string words;
  for (std::uint32_t t = first > 9 ? first - 9 : 0;
       t < std::min<std::size_t>(last + 5, tokens.size()); ++t) {
    words +=
        (t == first ? "[" : "") + tokens[t].raw + (t + 1 == last ? "]" : "") + tokens[t].mark + " ";
  }
  return words;
}

// Where a wrong hypothesis first differs from the right one.
struct Parting {
  std::string kind;  // what it did, for what would have been right
  std::string words;
};

Parting parting(const Lesson& lesson, const Search& search, std::int32_t wrong, std::int32_t right) {
  const auto steps = [&](std::int32_t chain) {
    std::vector<const Hypothesis*> out;
    for (std::int32_t i = chain; i >= 0; i = search.at(i).parent) {
      if (search.at(i).reading != kNoReading) out.push_back(&search.at(i));
    }
    std::reverse(out.begin(), out.end());
    return out;
  };
  const auto [a, b] = std::pair(steps(wrong), steps(right));
  const auto did = [](const std::vector<const Hypothesis*>& chain, std::size_t k) {
    return k < chain.size() ? kActionNames[static_cast<std::size_t>(chain[k]->last_action)] : "end";
  };
  std::size_t k = 0;
  while (k < std::min(a.size(), b.size()) && a[k] == b[k]) ++k;
  Parting out{fmt::format("{} for {}", did(a, k), did(b, k)), {}};
  if (k < std::max(a.size(), b.size())) {
    const auto& r = lesson.lattice.readings[(k < b.size() ? b : a)[k]->reading];
    out.words = around(lesson, r.first, r.last);
  }
  return out;
}

void add_debts(const Model& model, const Lesson& lesson, const Search& search,
               const std::vector<std::int32_t>& beam, bool verbose, Debts& debts) {
  std::int32_t best = -1;
  std::int32_t right = -1;
  for (std::int32_t i : beam) {
    if (best < 0 || search.at(i).score > search.at(best).score) best = i;
    if (search.at(i).gold < 0) continue;
    if (right < 0 || search.at(i).score > search.at(right).score) right = i;
  }
  if (right < 0 || best == right || search.at(best).gold >= 0) return;
  debts["windows astray"] += 1;
  const auto add = [&](std::int32_t chain, double sign) {
    for (std::int32_t i = chain; i >= 0; i = search.at(i).parent) {
      const Hypothesis& h = search.at(i);
      if (h.reading == kNoReading) continue;
      const char* did = kActionNames[static_cast<std::size_t>(h.last_action)];
      debts[fmt::format("did {}", did)] += sign;
      for (const auto& [id, v] : h.features) {
        const double gain = static_cast<double>(model.weights[id] * v);
        debts[weighed_by(model, id)] += sign * gain;
        debts[fmt::format("by action {}", did)] += sign * gain;
      }
    }
  };
  add(best, 1);
  add(right, -1);
  const Parting at = parting(lesson, search, best, right);
  debts["took " + at.kind] += 1;
  if (verbose) {
    fmt::print("   took {} ({:.1f} nats better): {}\n", at.kind,
               search.at(best).score - search.at(right).score, at.words);
  }
}

// How a lesson is walked through while training.
struct Walk {
  std::size_t window = 8;  // events
  // After the gold hypothesis has left the beam it is kept beside it to the window's end, so that
  // the weights learn what becomes of a search that went astray; they move where it is furthest
  // behind.
  bool astray = false;
};

// Runs the guided search over one sample in windows. With a learner, updates the weights.
void pass_over(const Sample& s, const Model& model, Learner* learner, const Walk& walk,
               const SearchConfig& base, Tally& tally, bool verbose, Debts* debts = nullptr) {
  LineTree lines(model.policy);
  std::vector<LineId> line_of_node;
  const auto events = events_of(s, lines, line_of_node);
  const GoldGuide guide(events);
  SearchConfig config = base;
  config.keep_features = learner != nullptr || debts != nullptr;
  Search search(s.prepared, model, lines, config);
  search.set_guide(&guide);
  tally.mentions += static_cast<int>(events.size());

  std::size_t k = 0;
  while (k < events.size()) {
    search.forget();
    Hypothesis seed = gold_hypothesis(s, events, lines, line_of_node, k);
    search.seed(seed, s.gold.start_moves);
    const std::size_t goal = between_words(events, k + walk.window);
    std::uint32_t t = seed.token;
    std::size_t reached = k;
    bool update = false;
    bool astray = false;
    std::optional<Judgement> worst;  // where the right ones were furthest behind
    const std::vector<std::int32_t>* beam = nullptr;
    for (; t <= search.tokens(); ++t) {
      beam = &search.step(t);
      const bool lost = search.lost_gold();
      std::int32_t best_gold = -1;
      bool any = false;
      for (std::int32_t i : *beam) {
        if (search.at(i).gold >= 0) {
          any = true;
          best_gold = std::max(best_gold, search.at(i).gold);
        }
      }
      if (any) reached = std::max(reached, static_cast<std::size_t>(best_gold));
      if (lost && !search.gold_pending(t)) {
        if (!astray) {
          ++tally.resets;
          tally.loss += 2;  // beside what the update below counts
          if (verbose && reached < events.size())
            fmt::print("   lost   {}\n", describe(s, events[reached], s.prepared));
        }
        astray = true;
        update = true;
        // The event after the ones done was being decided or its consequences were.
        if (!walk.astray) break;
      }
      if (astray && any) {
        Judgement here(search, *beam);
        if (!worst || here.behind > worst->behind) worst = std::move(here);
      }
      if (!any && !search.gold_pending(t)) {
        ++tally.unreachable;
        if (verbose && reached < events.size())
          fmt::print("   unreachable ({}) {}\n", obstacle(s, events, reached, search, line_of_node),
                     describe(s, events[reached], s.prepared));
        reached = std::max(reached, k) + 1;
        break;
      }
      // End of the window: the goal is reached and a little of what follows has been heard.
      if (any && best_gold >= static_cast<std::int32_t>(goal) &&
          (t + 1 >= search.tokens() || t >= events[goal - 1].span.hi)) {
        update = true;
        break;
      }
    }
    if (t > search.tokens()) {
      update = true;
      reached = events.size();
    }
    if (update && beam != nullptr) {
      const Judgement end(search, *beam);
      if (end.gold > 0) tally.loss += std::min(8.0, -std::log(end.gold));
      const Judgement& from = worst ? *worst : end;
      if (debts != nullptr) add_debts(model, s.prepared, search, *beam, verbose, *debts);
      if (learner != nullptr && from.any_gold()) learn_from(from, search, *learner);
    }
    k = between_words(events, std::max(reached, k + 1));
  }
}

struct Score {
  double precision = 0, recall = 0, f1 = 0;
};

Score edge_score(const corpus::Gold& gold, const std::set<std::string>& edges) {
  int tp = 0;
  int fp = 0;
  for (const auto& e : edges) {
    if (gold.spoken.count(e) != 0) {
      ++tp;
    } else if (gold.free.count(e) == 0) {
      ++fp;
    }
  }
  Score out;
  out.precision = tp / std::max(1.0, static_cast<double>(tp + fp));
  out.recall = tp / std::max(1.0, static_cast<double>(gold.spoken.size()));
  out.f1 = 2 * out.precision * out.recall / std::max(1e-9, out.precision + out.recall);
  return out;
}

// What a user gets: the start inferred, every move of the output counted, those before the start
// too.
Score whole_score(const Sample& s, const Model& model, std::ofstream& judged) {
  const auto d = decode(s.transcript, {}, model);
  if (!d) return {};
  for (const Mention& m : d->mentions) {
    if (m.act != Act::kPlay && m.act != Act::kRevisit) continue;
    const Node& node = d->nodes[static_cast<std::size_t>(m.node)];
    const std::string key =
        corpus::edge_key(d->nodes[static_cast<std::size_t>(node.parent)].position, node.move);
    const int trust = s.form == "words" ? 2 : s.form == "script" ? 0 : 1;
    judged << corpus::write_judged(
        {trust, s.lesson, s.gold.spoken.count(key) + s.gold.free.count(key) > 0, m.evidence});
  }
  std::set<std::string> edges;
  board::Position p = board::Position::initial();
  for (board::Move m : d->start.moves) {
    edges.insert(corpus::edge_key(p, m));
    p = p.after(m);
  }
  for (const Node& n : d->nodes) {
    if (n.parent < 0) continue;
    edges.insert(corpus::edge_key(d->nodes[static_cast<std::size_t>(n.parent)].position, n.move));
  }
  return edge_score(s.gold, edges);
}

// What went wrong first, and how many wrong edges hang from it.
struct Misses {
  struct Kind {
    int roots = 0;
    int edges = 0;
  };
  std::map<std::string, Kind> kinds;
  int spoken = 0;
};

// Free decode with the start given; edge F1 as shared scoring defines it.
Score decode_and_score(const Sample& s, const Model& model, const SearchConfig& config,
                       Misses& misses, bool verbose) {
  LineTree lines(model.policy);
  std::vector<LineId> line_of_node;
  const auto events = events_of(s, lines, line_of_node);
  std::map<LineId, int> gold_node;
  for (std::size_t n = 0; n < line_of_node.size(); ++n)
    gold_node[line_of_node[n]] = static_cast<int>(n);
  Search search(s.prepared, model, lines, config);
  Hypothesis h;
  auto tree = std::make_shared<HypothesisTree>();
  TreeNode root;
  root.line = lines.root(s.gold.nodes[0].position);
  tree->nodes.push_back(root);
  tree->hash = lines.at(root.line).hash;
  h.tree = tree;
  search.seed(h, s.gold.start_moves);
  search.run();
  std::set<std::string> edges;
  const auto& beam = search.beam(search.tokens());
  if (beam.empty()) return {};
  const Hypothesis& best = search.at(beam[0]);
  std::map<LineId, int> below;  // wrong edges at and under a line whose parent is in the gold tree
  std::set<int> found;
  for (std::size_t n = 1; n < best.tree->nodes.size(); ++n) {
    const LineId id = best.tree->nodes[n].line;
    const Line& line = lines.at(id);
    const std::string key = corpus::edge_key(lines.at(line.parent).position, line.move);
    edges.insert(key);
    if (const auto it = gold_node.find(id); it != gold_node.end()) {
      found.insert(it->second);
      continue;
    }
    if (s.gold.spoken.count(key) != 0 || s.gold.free.count(key) != 0) continue;
    LineId top = id;
    while (gold_node.count(lines.at(top).parent) == 0) top = lines.at(top).parent;
    ++below[top];
  }
  std::vector<std::int32_t> chain;
  for (std::int32_t i = beam[0]; i >= 0; i = search.at(i).parent) chain.push_back(i);
  std::reverse(chain.begin(), chain.end());
  const auto san = [&](LineId id) {
    const Line& l = lines.at(id);
    return l.parent == kNoLine ? std::string("start")
                               : board::to_san(lines.at(l.parent).position, l.move);
  };
  std::set<LineId> told;
  LineId cursor = lines.root(s.gold.nodes[0].position);
  misses.spoken += static_cast<int>(s.gold.spoken.size());
  for (std::size_t k = 0; k < chain.size(); ++k) {
    const Hypothesis& x = search.at(chain[k]);
    if (x.reading == kNoReading || x.last_action == Action::kNone) continue;
    const auto& r = s.prepared.lattice.readings[x.reading];
    const LineId id = x.line;
    const LineId was = cursor;
    cursor = id;
    if (gold_node.count(id) != 0) continue;
    LineId top = id;
    while (gold_node.count(lines.at(top).parent) == 0) top = lines.at(top).parent;
    if (below.count(top) == 0 || !told.insert(top).second) continue;
    const bool bridged = top != id;
    const Event* event = nullptr;
    for (const Event& e : events) {
      if (e.span.lo < r.last && r.first < e.span.hi && (event == nullptr || event->line != id))
        event = &e;
    }
    bool idea = false;
    for (const auto& i : s.gold.ideas) {
      const auto span = s.alignment->tokens(i.first, i.last);
      idea = idea || (span.lo < r.last && r.first < span.hi);
    }
    std::string kind;
    std::string meant;
    if (event == nullptr) {
      kind = idea ? "idea played" : "talk played";
    } else {
      const auto& node = s.gold.nodes[static_cast<std::size_t>(event->node)];
      const LineId meant_at = line_of_node[static_cast<std::size_t>(node.parent)];
      meant = fmt::format("{} after {}", san(line_of_node[static_cast<std::size_t>(event->node)]),
                          san(meant_at));
      const bool same_move = node.move == lines.at(id).move;
      const bool parent_known = found.count(node.parent) != 0;
      const bool unsaid_before =
          node.parent > 0 && s.gold.nodes[static_cast<std::size_t>(node.parent)].unsaid;
      kind = bridged                           ? "false bridge"
             : unsaid_before                   ? "unsaid move missed"
             : same_move                       ? (parent_known ? "wrong place" : "parent missed")
             : lines.at(id).parent == meant_at ? "wrong move"
             : parent_known                    ? "wrong place and move"
                                               : "parent missed";
    }
    auto& tally = misses.kinds[kind];
    ++tally.roots;
    tally.edges += below[top];
    if (verbose) {
      fmt::print("  {:22} {:3} {:5} {} {} after {} (was at {}); meant {}\n        {}\n", kind,
                 below[top], r.first,
                 kActionNames[static_cast<std::size_t>(x.last_action)], san(id),
                 san(lines.at(id).parent), san(was), meant.empty() ? "-" : meant,
                 around(s.prepared, r.first, r.last));
    }
  }
  // Gold moves that are not there though the move before them is.
  std::set<int> reported;
  for (const Event& e : events) {
    const auto& node = s.gold.nodes[static_cast<std::size_t>(e.node)];
    if (found.count(e.node) != 0 || !reported.insert(e.node).second) continue;
    if (node.parent != 0 && found.count(node.parent) == 0) continue;
    const Heard heard = heard_move(s, e, search, line_of_node);
    std::string kind = heard.cost > 90 ? "no reading" : !heard.kept ? "read, not kept" : "";
    if (kind.empty()) {
      kind = "passed over";
      for (std::int32_t i : chain) {
        const Hypothesis& x = search.at(i);
        if (x.reading == kNoReading || x.last_action == Action::kNone) continue;
        const auto& r = s.prepared.lattice.readings[x.reading];
        if (r.first < e.span.hi && e.span.lo < r.last) kind = "another made of it";
      }
    }
    auto& tally = misses.kinds["(lost) " + kind];
    ++tally.roots;
    int under = 0;
    for (std::size_t n = static_cast<std::size_t>(e.node); n < s.gold.nodes.size(); ++n) {
      int a = static_cast<int>(n);
      while (a > e.node) a = s.gold.nodes[static_cast<std::size_t>(a)].parent;
      under += a == e.node && !s.gold.nodes[n].unsaid ? 1 : 0;
    }
    tally.edges += under;
    if (verbose) {
      fmt::print("  {:22} {:3} {:5} {} after {}\n        {}\n", kind, under, e.span.lo,
                 san(line_of_node[static_cast<std::size_t>(e.node)]),
                 san(line_of_node[static_cast<std::size_t>(node.parent)]),
                 around(s.prepared, e.span.lo, e.span.hi));
    }
  }
  return edge_score(s.gold, edges);
}

std::string slurp(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

// The second model with the mean of both where the first has the same weights: less is left to the
// order in which one training saw the lessons. Confidences are the second's.
std::string mean_of(const std::string& first, const std::string& second) {
  std::map<std::string, std::string> known;
  std::istringstream lines(first);
  for (std::string line; std::getline(lines, line);) {
    const auto tab = line.rfind('\t');
    if (tab != std::string::npos) known[line.substr(0, tab)] = line.substr(tab + 1);
  }
  std::string out;
  std::istringstream others(second);
  for (std::string line; std::getline(others, line);) {
    const auto tab = line.rfind('\t');
    const auto same = known.find(line.substr(0, tab == std::string::npos ? 0 : tab));
    if (tab == std::string::npos || same == known.end() || line.starts_with("confidence:")) {
      out += line + '\n';
      continue;
    }
    out += same->first;
    std::istringstream a(same->second);
    std::istringstream b(line.substr(tab + 1));
    char parted = '\t';
    for (double x = 0, y = 0; a >> x && b >> y; parted = ' ') {
      out += fmt::format("{}{:.4g}", parted, (x + y) / 2);
    }
    out += '\n';
  }
  return out;
}

// The same talk as live captions: a few words each, lower case, no marks.
std::string captions_of(const std::string& stamped) {
  std::string out;
  int last = 0;
  std::istringstream lines(stamped);
  for (std::string line; std::getline(lines, line);) {
    int minutes = 0;
    int seconds = 0;
    int length = 0;
    if (std::sscanf(line.c_str(), "[%d:%d] %n", &minutes, &seconds, &length) < 2 || length == 0)
      continue;
    std::istringstream words(line.substr(static_cast<std::size_t>(length)));
    std::size_t count = 0;
    for (std::string word; words >> word;) {
      std::string bare;
      for (std::size_t i = 0; i < word.size(); ++i) {
        const char c = word[i];
        const bool inside = i > 0 && i + 1 < word.size();  // "O-O", "we're", "8.5"
        if (std::string_view(",;:?!\"()").find(c) != std::string_view::npos) continue;
        if ((c == '.' || c == '-') && !inside) continue;
        bare.push_back(static_cast<char>(std::tolower(static_cast<unsigned char>(c))));
      }
      if (bare.empty()) continue;
      if (count % 9 == 0) {
        const int t = std::max(last, minutes * 60 + seconds + static_cast<int>(count * 2 / 5));
        last = t;
        out += fmt::format("{}[{}:{:02}]", out.empty() ? "" : "\n", t / 60, t % 60);
      }
      out += ' ' + bare;
      ++count;
    }
  }
  return out + '\n';
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"fit the model's weights from lessons with gold trees"};
  std::vector<std::string> folders = {"corpus/lessons", "corpus/practice"};
  std::string out_path;
  int fold = -1;
  int folds = 6;
  int epochs = 8;
  bool verbose = false;
  std::string only;
  std::string start_from;
  std::string init;
  std::string forms = "script,heard,words";
  float rate = 0.15F;
  float decay = 0.002F;
  std::size_t beam = 60;
  bool quick = false;
  bool owed = false;
  Debts debts;
  std::string judged_path;
  std::vector<std::string> judged_from;
  std::string mean;
  double dropped = 0;
  double astray = 0;
  unsigned seed = 11;
  std::size_t lessons_with = 3;
  app.add_option("--lessons", folders, "folders of lessons")->take_all();
  app.add_option("--out", out_path);
  app.add_option("--fold", fold);
  app.add_option("--folds", folds);
  app.add_option("--epochs", epochs);
  app.add_option("--rate", rate);
  app.add_option("--decay", decay);
  app.add_option("--beam", beam);
  app.add_option("--only", only, "report only lessons whose name holds this");
  app.add_option("--init", init, "go on from this model");
  app.add_option("--model", start_from, "score this model, train nothing");
  app.add_option("--forms", forms);
  app.add_option("--drop", dropped,
                 "share of context strings unknown at random in each walk through a lesson");
  app.add_option("--astray", astray,
                 "share of walks in which the search goes on where it has lost the way");
  app.add_option("--seed", seed, "of the order of lessons and of what is left out");
  app.add_flag("--quick", quick, "of lessons left out, report resets and loss only");
  app.add_flag("--debts", owed, "print what the best hypotheses gain over right ones, and by what");
  app.add_option("--lessons-with", lessons_with, "context strings are in at least so many lessons");
  app.add_option("--judged", judged_path,
                 "write the placed moves of lessons scored, and if they are right");
  app.add_option("--confidence", judged_from,
                 "fit the confidences of --model from such files, write --out, do nothing else");
  app.add_option("--mean", mean, "write the mean of this model and of --model, do nothing else");
  app.add_flag("--verbose", verbose);
  CLI11_PARSE(app, argc, argv);

  if (!mean.empty()) {
    std::ofstream(out_path) << mean_of(slurp(mean), slurp(start_from));
    return 0;
  }
  if (!judged_from.empty()) {
    Model fitted = Model::parse(slurp(start_from));
    std::vector<corpus::Judged> rows;
    for (const std::string& path : judged_from) {
      for (corpus::Judged& j : corpus::read_judged(path)) rows.push_back(std::move(j));
    }
    corpus::learn_confidence(rows, fitted);
    std::ofstream(out_path) << fitted.serialise();
    return 0;
  }
  std::map<std::string, std::string> paths;  // by the lesson's name
  for (const std::string& folder : folders) {
    if (!fs::is_directory(folder)) continue;
    for (const auto& e : fs::directory_iterator(folder)) {
      if (fs::exists(e.path() / "gold.json")) paths[e.path().filename()] = e.path();
    }
  }
  // Parts of one course go to one fold.
  const auto fold_of = [&](const std::string& name) {
    std::string stem = name.substr(0, name.find("-part-"));
    std::uint32_t h = 2166136261U;
    for (char c : stem) h = (h ^ static_cast<unsigned char>(c)) * 16777619U;
    return static_cast<int>((h >> 8) % static_cast<std::uint32_t>(folds));
  };

  std::vector<std::unique_ptr<Sample>> samples;
  for (const auto& [name, path] : paths) {
    auto gold = corpus::load_gold(path);
    if (!gold) {
      fmt::print(stderr, "{}\n", gold.error().message);
      return 3;
    }
    std::vector<std::string> files;
    if (forms.find("script") != std::string::npos) files.push_back("script.txt");
    if (forms.find("heard") != std::string::npos) files.push_back("heard.txt");
    if (forms.find("words") != std::string::npos) {
      for (const auto& e : fs::directory_iterator(path)) {
        const std::string f = e.path().filename();
        if (f.starts_with("heard-words-")) files.push_back(f);
      }
      std::sort(files.begin(), files.end());
    }
    if (forms.find("captions") != std::string::npos) files.push_back("captions");
    for (const std::string& f : files) {
      const bool captions = f == "captions";
      // Every second lesson as it was said, the others as they were misheard.
      const std::string file = path + (!captions                 ? "/" + f
                                       : samples.size() % 2 == 0 ? "/heard.txt"
                                                                 : "/script.txt");
      if (!fs::exists(file)) continue;
      auto t = transcript::read_transcript(captions ? captions_of(slurp(file)) : slurp(file), f);
      if (!t) {
        fmt::print(stderr, "{}\n", t.error().message);
        continue;
      }
      auto s = std::make_unique<Sample>();
      s->name = name + "/" + f;
      s->lesson = name;
      s->form = f.starts_with("heard-words") ? "words" : f.substr(0, f.find('.'));
      s->gold = *gold;
      const auto lattice = hearing::build_lattice(*t);
      s->contexts = contexts_of(lattice);
      s->alignment = std::make_unique<corpus::Alignment>(*gold, *t, lattice);
      s->prepared.lattice = lattice;
      s->transcript = std::move(*t);
      samples.push_back(std::move(s));
    }
  }

  Model model;
  if (!start_from.empty() || !init.empty()) {
    model = Model::parse(slurp(start_from.empty() ? init : start_from));
  }
  if (start_from.empty()) {
    // Context strings that at least two lessons of the training set share.
    std::map<std::string, std::pair<std::set<std::string>, int>> seen;
    for (const auto& s : samples) {
      if (fold >= 0 && fold_of(s->lesson) == fold) continue;
      for (std::size_t r = 0; r < s->contexts.size(); ++r) {
        if (!s->prepared.lattice.readings[r].strong) continue;
        for (const auto& c : s->contexts[r].strings) {
          auto& e = seen[c];
          e.first.insert(s->lesson);
          ++e.second;
        }
      }
    }
    for (const auto& [text, e] : seen) {
      if (e.first.size() >= lessons_with && e.second >= static_cast<int>(lessons_with) + 1)
        model.add_context(text);
    }
    std::vector<const corpus::Gold*> golds;
    std::set<std::string> done;
    for (const auto& s : samples) {
      if (fold >= 0 && fold_of(s->lesson) == fold) continue;
      if (done.insert(s->lesson).second) golds.push_back(&s->gold);
    }
    if (init.empty()) model.policy = corpus::fit_policy(golds);
  }
  for (auto& s : samples) {
    const auto side = s->gold.side;
    s->prepared = prepare(s->prepared.lattice, model);
    if (s->form == "script") s->prepared.trust = Trust::kClean;
    if (side == "white") s->prepared.side = board::Color::kWhite;
    if (side == "black") s->prepared.side = board::Color::kBlack;
  }
  fmt::print("{} samples, {} context strings\n", samples.size(), model.contexts());

  SearchConfig config;
  config.beam = beam;
  if (start_from.empty() && init.empty()) {
    // A sensible start: costs are costs, branching and jumping need a reason.
    for (int b = 0; b < 6; ++b)
      model.weights[slot_feature(Slot::kChannel, static_cast<std::size_t>(b))] = 1;
    for (std::size_t a = 0; a < kActions; ++a) {
      model.weights[slot_feature(Slot::kLogPolicy, a)] = 0.5F;
      model.weights[slot_feature(Slot::kLogShare, a)] = 0.5F;
    }
    const std::array<float, kActions> bias = {3, 2.5F, 1, -0.5F, 1, -1, 0};
    for (std::size_t a = 0; a < kActions; ++a) {
      for (std::size_t k = 0; k < 3; ++k)
        model.weights[slot_feature(Slot::kAction, a * 3 + k)] = bias[a];
    }
    model.weights[slot_feature(Slot::kRecap, 0)] = 0.9F;
    model.weights[slot_feature(Slot::kTwice, 2)] = -3;
    for (std::size_t gap = 0; gap < 4; ++gap) {
      for (std::size_t n = 0; n < 4; ++n) {
        model.weights[slot_feature(Slot::kUnsaid, n + 4 * gap)] = gap == 0 ? -4.0F : -1.0F;
      }
      model.weights[slot_feature(Slot::kUnsaidLog, gap)] = gap == 0 ? 0.7F : 0.4F;
    }
  }
  if (start_from.empty()) {
    Learner learner(model, rate, decay);
    std::mt19937 random(seed);
    for (int epoch = 0; epoch < epochs; ++epoch) {
      Tally tally;
      std::vector<std::size_t> order;
      for (std::size_t i = 0; i < samples.size(); ++i) {
        if (fold < 0 || fold_of(samples[i]->lesson) != fold) order.push_back(i);
      }
      std::shuffle(order.begin(), order.end(), random);
      for (std::size_t i : order) {
        Walk walk;
        walk.astray = std::generate_canonical<double, 20>(random) < astray;
        walk.window = walk.astray ? 20 + random() % 60 : 4 + random() % 12;
        // Some strings are unknown in this lesson, as they are in one that nobody has seen, so that
        // none is leant on.
        const auto whole = samples[i]->prepared.around;
        std::vector<bool> unknown(model.contexts());
        for (std::size_t c = 0; c < unknown.size(); ++c) {
          unknown[c] = std::generate_canonical<double, 20>(random) < dropped;
        }
        for (auto& [ids, side, gap] : samples[i]->prepared.around) {
          std::erase_if(ids, [&](std::uint32_t id) { return unknown[id]; });
        }
        pass_over(*samples[i], model, &learner, walk, config, tally, false);
        samples[i]->prepared.around = whole;
      }
      fmt::print("epoch {}: {} mentions, resets {:.1f} per 100, unreachable {:.1f}\n", epoch + 1,
                 tally.mentions, 100.0 * tally.resets / tally.mentions,
                 100.0 * tally.unreachable / tally.mentions);
      std::fflush(stdout);
    }
    model.weights = learner.averaged();
  }
  config.beam = 80;
  std::ofstream judged(judged_path);
  std::map<std::string, std::vector<double>> by_form;
  std::map<std::string, std::vector<double>> given_by_form;
  std::map<std::string, Misses> misses;
  std::map<std::string, std::pair<int, double>> losses;  // by form: mentions, nats
  for (const auto& s : samples) {
    if (fold >= 0 && fold_of(s->lesson) != fold) continue;
    if (!only.empty() && s->name.find(only) == std::string::npos) continue;
    if (verbose) fmt::print("{}\n", s->name);
    Tally tally;
    pass_over(*s, model, nullptr, Walk{}, config, tally, verbose);
    if (owed) {
      Tally unused;
      pass_over(*s, model, nullptr, {60, true}, config, unused, verbose, &debts);
    }
    auto& [mentions, loss] = losses[s->form];
    mentions += tally.mentions;
    loss += tally.loss;
    if (quick) {
      fmt::print("{:48} loss {:6.1f}  resets {:4.1f} unreachable {:4.1f}\n", s->name,
                 100.0 * tally.loss / std::max(1, tally.mentions),
                 100.0 * tally.resets / std::max(1, tally.mentions),
                 100.0 * tally.unreachable / std::max(1, tally.mentions));
      continue;
    }
    const Score given = decode_and_score(*s, model, config, misses[s->form], verbose);
    const Score score = whole_score(*s, model, judged);
    fmt::print(
        "{:48} P {:5.1f} R {:5.1f} F1 {:5.1f}  (start given: {:5.1f})  resets {:4.1f} unreachable "
        "{:4.1f}\n",
        s->name, 100 * score.precision, 100 * score.recall, 100 * score.f1, 100 * given.f1,
        100.0 * tally.resets / std::max(1, tally.mentions),
        100.0 * tally.unreachable / std::max(1, tally.mentions));
    std::fflush(stdout);
    by_form[s->form].push_back(100 * score.f1);
    given_by_form[s->form].push_back(100 * given.f1);
  }
  for (const auto& [name, nats] : debts) fmt::print("debt {:24} {:9.1f}\n", name, nats);
  for (const auto& [form, tally] : losses) {
    fmt::print("loss {:8} {:.1f} nats per 100 mentions of {}\n", form,
               100 * tally.second / tally.first, tally.first);
  }
  for (const auto& [form, scores] : by_form) {
    double sum = 0;
    for (double x : scores) sum += x;
    double given = 0;
    for (double x : given_by_form[form]) given += x;
    const auto n = static_cast<double>(scores.size());
    fmt::print("mean {:8} F1 {:.1f}, start given {:.1f}  ({} lessons)\n", form, sum / n, given / n,
               scores.size());
    const Misses& m = misses[form];
    for (const auto& [kind, tally] : m.kinds) {
      fmt::print("  {:26} {:4} times, {:4} edges of {}\n", kind, tally.roots, tally.edges,
                 m.spoken);
    }
  }
  if (!out_path.empty()) {
    std::ofstream out(out_path);
    out << model.serialise();
  }
  return 0;
}
