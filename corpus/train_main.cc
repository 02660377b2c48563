// train: fits the model's weights from lessons with gold trees.
//
//   train --lessons corpus/lessons --out pipeline/resolve/weights.tsv            all lessons
//   train --lessons corpus/lessons --fold 0 --folds 6                            scores fold 0 held out
//
// The search runs with gold mentions as guide. Where the gold hypothesis leaves the beam, or after a
// window of mentions, the weights move towards it (a conditional random field over the beam, early
// update), and the search restarts from gold there: a reset. Scores of held-out lessons are edge F1
// with the start given, and resets per 100 mentions.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <random>
#include <sstream>

#include "board/notation.h"
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
      if (k < events_.size() && events_[k].span.hi + 1 <= last && events_[k].span.hi <= first + 1) return -1;
      return before;
    }
    if (k >= events_.size()) return -1;
    const Event& e = events_[k];
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
  std::map<std::string, int> lost;
};

std::string describe(const Sample& s, const Event& e, const Lesson& lesson) {
  std::string words;
  for (std::uint32_t t = e.span.lo > 6 ? e.span.lo - 6 : 0;
       t < std::min<std::uint32_t>(e.span.hi + 3, static_cast<std::uint32_t>(lesson.lattice.tokens.size())); ++t) {
    if (t == e.span.lo) words += "[";
    words += lesson.lattice.tokens[t].raw + lesson.lattice.tokens[t].mark;
    if (t + 1 == e.span.hi) words += "]";
    words += " ";
  }
  const auto& node = s.gold.nodes[static_cast<std::size_t>(e.node)];
  return fmt::format("{} <- {}", board::to_san(s.gold.nodes[static_cast<std::size_t>(node.parent)].position, node.move), words);
}

// Runs the guided search over one sample in windows. With a learner, updates the weights.
void pass_over(const Sample& s, const Model& model, Learner* learner, std::size_t window,
               const SearchConfig& base, Tally& tally, bool verbose) {
  LineTree lines(model.policy);
  std::vector<LineId> line_of_node;
  const auto events = events_of(s, lines, line_of_node);
  const GoldGuide guide(events);
  SearchConfig config = base;
  config.keep_features = learner != nullptr;
  Search search(s.prepared, model, lines, config);
  search.set_guide(&guide);
  tally.mentions += static_cast<int>(events.size());

  std::size_t k = 0;
  while (k < events.size()) {
    search.forget();
    Hypothesis seed = gold_hypothesis(s, events, lines, line_of_node, k);
    search.seed(seed);
    const std::size_t goal = std::min(events.size(), k + window);
    std::uint32_t t = seed.token;
    std::size_t reached = k;
    bool update = false;
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
        ++tally.resets;
        if (verbose && reached < events.size()) fmt::print("   lost   {}\n", describe(s, events[reached], s.prepared));
        update = true;
        // The event after the ones done was being decided or its consequences were.
        break;
      }
      if (!any && !search.gold_pending(t)) {
        ++tally.unreachable;
        if (verbose && reached < events.size()) fmt::print("   unreachable {}\n", describe(s, events[reached], s.prepared));
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
      // Is the best hypothesis wrong? (a reset in the sense of first place)
      double top = -1e30;
      for (std::int32_t i : *beam) top = std::max(top, static_cast<double>(search.at(i).score));
      if (learner != nullptr) {
        double all = 0;
        double gold = 0;
        for (std::int32_t i : *beam) {
          const double e = std::exp(static_cast<double>(search.at(i).score) - top);
          all += e;
          if (search.at(i).gold >= 0) gold += e;
        }
        if (gold > 0) {
          std::map<std::int32_t, double> scale;  // ancestors shared: sum weights, then add once
          for (std::int32_t i : *beam) {
            const double e = std::exp(static_cast<double>(search.at(i).score) - top);
            const double w = (search.at(i).gold >= 0 ? e / gold : 0) - e / all;
            if (std::abs(w) > 1e-5) scale[i] += w;
          }
          while (!scale.empty()) {
            const auto last = std::prev(scale.end());
            const auto [i, w] = *last;
            scale.erase(last);
            if (std::abs(w) < 1e-6) continue;
            const Hypothesis& h = search.at(i);
            learner->add(h.features, static_cast<float>(w));
            if (h.parent >= 0) scale[h.parent] += w;
          }
          learner->update();
        }
      }
    }
    if (reached == k) reached = k + (update && reached < goal ? 1 : 1);
    k = reached;
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

// What a user gets: the start inferred, every move of the output counted, those before the start too.
Score whole_score(const Sample& s, const Model& model) {
  const auto d = decode(s.transcript, {}, model);
  if (!d) return {};
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

// Free decode with the start given; edge F1 as shared scoring defines it.
Score decode_and_score(const Sample& s, const Model& model, const SearchConfig& config, bool verbose) {
  LineTree lines(model.policy);
  Search search(s.prepared, model, lines, config);
  Hypothesis h;
  auto tree = std::make_shared<HypothesisTree>();
  TreeNode root;
  root.line = lines.root(s.gold.nodes[0].position);
  tree->nodes.push_back(root);
  tree->hash = lines.at(root.line).hash;
  h.tree = tree;
  search.seed(h);
  search.run();
  std::set<std::string> edges;
  const auto& beam = search.beam(search.tokens());
  if (beam.empty()) return {};
  const Hypothesis& best = search.at(beam[0]);
  for (std::size_t n = 1; n < best.tree->nodes.size(); ++n) {
    const Line& line = lines.at(best.tree->nodes[n].line);
    edges.insert(corpus::edge_key(lines.at(line.parent).position, line.move));
  }
  if (verbose) {
    std::vector<std::int32_t> chain;
    for (std::int32_t i = beam[0]; i >= 0; i = search.at(i).parent) chain.push_back(i);
    std::reverse(chain.begin(), chain.end());
    const char* names[] = {"play", "walk", "sib ", "up  ", "back", "jump", "none"};
    for (std::int32_t i : chain) {
      const Hypothesis& x = search.at(i);
      if (x.reading == kNoReading) continue;
      const auto& r = s.prepared.lattice.readings[x.reading];
      std::string words;
      for (std::uint32_t t = r.first; t < r.last; ++t) words += s.prepared.lattice.tokens[t].raw + " ";
      const Line& line = lines.at(x.tree->nodes[static_cast<std::size_t>(x.cursor)].line);
      std::string mark;
      if (x.last_action != Action::kNone && line.parent != kNoLine) {
        const std::string key = corpus::edge_key(lines.at(line.parent).position, line.move);
        mark = s.gold.spoken.count(key) ? "ok " : s.gold.free.count(key) ? "free " : "WRONG ";
      }
      fmt::print("  {:5} {} {:24} {}{} \n", r.first, names[static_cast<int>(x.last_action)], words, mark,
                 x.last_action == Action::kNone || line.parent == kNoLine ? "" : board::to_san(lines.at(line.parent).position, line.move));
    }
  }
  return edge_score(s.gold, edges);
}

// Conditional logit on the moves of gold trees, with lines of the openings table as lighter examples.
std::vector<float> fit_policy(const std::vector<const corpus::Gold*>& golds) {
  struct Example {
    std::vector<SparseFeatures> moves;
    std::size_t played = 0;
    float weight = 1;
  };
  std::vector<Example> examples;
  const auto add = [&](const board::Position& p, board::Move last, bool captured, board::Move played,
                       float weight) {
    board::MoveList moves;
    p.legal_moves(moves);
    Example e;
    e.moves = policy_features({&p, last, captured}, moves);
    e.weight = weight;
    for (std::size_t i = 0; i < moves.size(); ++i) {
      if (moves[i] == played) e.played = i;
    }
    examples.push_back(std::move(e));
  };
  for (const corpus::Gold* g : golds) {
    for (std::size_t n = 1; n < g->nodes.size(); ++n) {
      const auto& node = g->nodes[n];
      const auto& up = g->nodes[static_cast<std::size_t>(node.parent)];
      const bool captured =
          up.parent >= 0 && g->nodes[static_cast<std::size_t>(up.parent)].position.is_capture(up.move);
      add(up.position, up.move, captured, node.move, 1.0F);
    }
  }
  std::mt19937 random(7);
  const auto openings = lexicon::openings();
  for (std::size_t i = 0; i < 250; ++i) {
    const auto& o = openings[random() % openings.size()];
    board::Position p = board::Position::initial();
    const auto line = board::parse_line(p, o.moves);
    if (!line) continue;
    board::Move last;
    bool captured = false;
    for (board::Move m : *line) {
      add(p, last, captured, m, 0.15F);
      captured = p.is_capture(m);
      last = m;
      p = p.after(m);
    }
  }
  const std::size_t d = policy_feature_names().size();
  std::vector<float> w(d, 0);
  std::vector<double> velocity(d, 0);
  for (int it = 0; it < 250; ++it) {
    std::vector<double> g(d, 0);
    for (const Example& e : examples) {
      std::vector<double> s(e.moves.size(), 0);
      double top = -1e30;
      for (std::size_t i = 0; i < e.moves.size(); ++i) {
        for (const auto& [id, v] : e.moves[i]) s[i] += static_cast<double>(w[id]) * v;
        top = std::max(top, s[i]);
      }
      double sum = 0;
      for (double& x : s) sum += x = std::exp(x - top);
      for (std::size_t i = 0; i < e.moves.size(); ++i) {
        const double q = (i == e.played ? 1.0 : 0.0) - s[i] / sum;
        for (const auto& [id, v] : e.moves[i]) g[id] += static_cast<double>(e.weight) * q * v;
      }
    }
    const double n = static_cast<double>(examples.size());
    for (std::size_t i = 0; i < d; ++i) {
      velocity[i] = 0.9 * velocity[i] + (g[i] / n - 0.0005 * static_cast<double>(w[i]));
      w[i] += static_cast<float>(0.8 * velocity[i]);
    }
  }
  return w;
}

std::string slurp(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app{"fit the model's weights from lessons with gold trees"};
  std::string dir = "corpus/lessons";
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
  app.add_option("--lessons", dir);
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
  app.add_flag("--verbose", verbose);
  CLI11_PARSE(app, argc, argv);

  std::vector<std::string> names;
  for (const auto& e : fs::directory_iterator(dir)) {
    if (fs::exists(e.path() / "gold.json")) names.push_back(e.path().filename());
  }
  std::sort(names.begin(), names.end());
  // Parts of one course go to one fold.
  const auto fold_of = [&](const std::string& name) {
    std::string stem = name.substr(0, name.find("-part-"));
    std::uint32_t h = 2166136261U;
    for (char c : stem) h = (h ^ static_cast<unsigned char>(c)) * 16777619U;
    return static_cast<int>((h >> 8) % static_cast<std::uint32_t>(folds));
  };

  std::vector<std::unique_ptr<Sample>> samples;
  for (const std::string& name : names) {
    const std::string path = dir + "/" + name;
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
    for (const std::string& f : files) {
      if (!fs::exists(path + "/" + f)) continue;
      auto t = transcript::read_transcript(slurp(path + "/" + f), f);
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
      if (e.first.size() >= 3 && e.second >= 4) model.add_context(text);
    }
    std::vector<const corpus::Gold*> golds;
    std::set<std::string> done;
    for (const auto& s : samples) {
      if (fold >= 0 && fold_of(s->lesson) == fold) continue;
      if (done.insert(s->lesson).second) golds.push_back(&s->gold);
    }
    if (init.empty()) model.policy = fit_policy(golds);
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
    for (int b = 0; b < 6; ++b) model.weights[slot_feature(Slot::kChannel, static_cast<std::size_t>(b))] = 1;
    for (std::size_t a = 0; a < kActions; ++a) {
      model.weights[slot_feature(Slot::kLogPolicy, a)] = 0.5F;
      model.weights[slot_feature(Slot::kLogShare, a)] = 0.5F;
    }
    const float bias[] = {3, 2.5F, 1, -0.5F, 1, -1, 0};
    for (std::size_t a = 0; a < kActions; ++a) {
      for (std::size_t k = 0; k < 3; ++k) model.weights[slot_feature(Slot::kAction, a * 3 + k)] = bias[a];
    }
    model.weights[slot_feature(Slot::kUnsaid, 0)] = -4;
    model.weights[slot_feature(Slot::kUnsaidLog, 0)] = 0.7F;
  }
  if (start_from.empty()) {
    Learner learner(model, rate, decay);
    std::mt19937 random(11);
    for (int epoch = 0; epoch < epochs; ++epoch) {
      Tally tally;
      std::vector<std::size_t> order;
      for (std::size_t i = 0; i < samples.size(); ++i) {
        if (fold < 0 || fold_of(samples[i]->lesson) != fold) order.push_back(i);
      }
      std::shuffle(order.begin(), order.end(), random);
      for (std::size_t i : order) {
        const std::size_t window = 4 + random() % 12;
        pass_over(*samples[i], model, &learner, window, config, tally, false);
      }
      fmt::print("epoch {}: {} mentions, resets {:.1f} per 100, unreachable {:.1f}\n", epoch + 1,
                 tally.mentions, 100.0 * tally.resets / tally.mentions,
                 100.0 * tally.unreachable / tally.mentions);
      std::fflush(stdout);
    }
    model.weights = learner.averaged();
  }
  config.beam = 80;
  std::map<std::string, std::vector<double>> by_form;
  for (const auto& s : samples) {
    if (fold >= 0 && fold_of(s->lesson) != fold) continue;
    if (!only.empty() && s->name.find(only) == std::string::npos) continue;
    if (verbose) fmt::print("{}\n", s->name);
    Tally tally;
    pass_over(*s, model, nullptr, 1000000, config, tally, verbose);
    const Score given = decode_and_score(*s, model, config, verbose);
    const Score score = whole_score(*s, model);
    fmt::print("{:48} P {:5.1f} R {:5.1f} F1 {:5.1f}  (start given: {:5.1f})  resets {:4.1f} unreachable {:4.1f}\n",
               s->name, 100 * score.precision, 100 * score.recall, 100 * score.f1, 100 * given.f1,
               100.0 * tally.resets / std::max(1, tally.mentions),
               100.0 * tally.unreachable / std::max(1, tally.mentions));
    std::fflush(stdout);
    by_form[s->form].push_back(100 * score.f1);
  }
  for (const auto& [form, scores] : by_form) {
    double sum = 0;
    for (double x : scores) sum += x;
    fmt::print("mean {:8} F1 {:.1f}  ({} lessons)\n", form, sum / static_cast<double>(scores.size()),
               scores.size());
  }
  if (!out_path.empty()) {
    std::ofstream out(out_path);
    out << model.serialise();
  }
  return 0;
}
