#include "corpus/fit_policy.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <utility>

#include "board/notation.h"
#include "lexicon/openings.h"
#include "resolve/policy.h"

namespace plyscribe::corpus {

using resolve::policy_feature_names;
using resolve::policy_features;
using resolve::SparseFeatures;

std::vector<float> fit_policy(const std::vector<const Gold*>& golds) {
  struct Example {
    std::vector<SparseFeatures> moves;
    std::size_t played = 0;
    float weight = 1;
  };
  std::vector<Example> examples;
  const auto add = [&](const board::Position& p, board::Move last, bool captured,
                       board::Move played, float weight) {
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
  for (const Gold* g : golds) {
    for (std::size_t n = 1; n < g->nodes.size(); ++n) {
      const auto& node = g->nodes[n];
      const auto& up = g->nodes[static_cast<std::size_t>(node.parent)];
      const bool captured =
          up.parent >= 0 &&
          g->nodes[static_cast<std::size_t>(up.parent)].position.is_capture(up.move);
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

}  // namespace plyscribe::corpus
