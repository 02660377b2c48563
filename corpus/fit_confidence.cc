#include "corpus/fit_confidence.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <fstream>
#include <utility>

namespace plyscribe::corpus {
namespace {

using resolve::ConfidenceWeights;
using resolve::kSigns;

// Logistic regression by gradient descent; the same numbers in, the same weights out.
constexpr double kRidge = 8;  // moves that speak for a weight of zero

ConfidenceWeights fit_confidence(const std::vector<const Judged*>& rows) {
  std::array<double, kSigns> w{};
  std::array<double, kSigns> squares{};
  squares.fill(1e-8);
  for (int it = 0; it < 1500; ++it) {
    std::array<double, kSigns> g{};
    ConfidenceWeights now{};
    for (std::size_t i = 0; i < kSigns; ++i) now[i] = static_cast<float>(w[i]);
    for (const Judged* j : rows) {
      const double e = (j->right ? 1.0 : 0.0) - confidence(now, j->evidence);
      for (std::size_t i = 0; i < kSigns; ++i)
        g[i] += e * static_cast<double>(j->evidence.signs[i]);
    }
    for (std::size_t i = 0; i < kSigns; ++i) {
      const double gi = (g[i] - kRidge * w[i]) / static_cast<double>(rows.size());
      squares[i] += gi * gi;
      w[i] += 0.1 * gi / std::sqrt(squares[i]);
    }
  }
  ConfidenceWeights out{};
  for (std::size_t i = 0; i < kSigns; ++i) out[i] = static_cast<float>(w[i]);
  return out;
}

// Expected calibration error over ten bins, and how right the sure ones are, by threshold.
void report_confidence(int trust, std::vector<std::pair<double, bool>> scored) {
  if (scored.empty()) return;
  std::array<double, 10> sum{}, right{}, count{};
  for (const auto& [p, ok] : scored) {
    const auto bin = std::min<std::size_t>(9, static_cast<std::size_t>(p * 10));
    sum[bin] += p;
    right[bin] += ok ? 1 : 0;
    ++count[bin];
  }
  double ece = 0;
  for (std::size_t b = 0; b < 10; ++b)
    ece += std::abs(sum[b] - right[b]) / static_cast<double>(scored.size());
  fmt::print("trust {}: {} moves, expected calibration error {:.3f}\n", trust, scored.size(), ece);
  for (const double least : {0.5, 0.7, 0.8, 0.85, 0.9, 0.93, 0.95, 0.97, 0.98}) {
    double n = 0;
    double ok = 0;
    for (const auto& [p, good] : scored) {
      if (p < least) continue;
      ++n;
      ok += good ? 1 : 0;
    }
    fmt::print("  from {:.2f}: {:5.1f} % of moves, {:5.1f} % of them right\n", least,
               100 * n / static_cast<double>(scored.size()), 100 * ok / std::max(n, 1.0));
  }
}

}  // namespace

std::string write_judged(const Judged& j) {
  std::string out = fmt::format("{} {} {}", j.trust, j.lesson, j.right ? 1 : 0);
  for (float x : j.evidence.signs) out += fmt::format(" {:.4g}", x);
  return out + '\n';
}

std::vector<Judged> read_judged(const std::string& path) {
  std::vector<Judged> out;
  std::ifstream in(path);
  Judged j;
  int right = 0;
  while (in >> j.trust >> j.lesson >> right) {
    for (float& x : j.evidence.signs) in >> x;
    j.right = right != 0;
    out.push_back(j);
  }
  return out;
}

void learn_confidence(const std::vector<Judged>& rows, resolve::Model& model) {
  constexpr std::uint32_t kParts = 5;
  for (std::size_t trust = 0; trust < model.confidence.size(); ++trust) {
    std::vector<std::pair<double, bool>> scored;
    const auto part_of = [](const Judged& j) {
      std::uint32_t h = 2166136261U;
      for (char c : j.lesson) h = (h ^ static_cast<unsigned char>(c)) * 16777619U;
      return (h >> 9) % kParts;
    };
    for (std::uint32_t part = 0; part <= kParts; ++part) {
      std::vector<const Judged*> fit;
      for (const Judged& j : rows) {
        if (j.trust == static_cast<int>(trust) && part_of(j) != part) fit.push_back(&j);
      }
      if (fit.size() < 50) continue;
      const ConfidenceWeights w = fit_confidence(fit);
      if (part == kParts) model.confidence[trust] = w;
      for (const Judged& j : rows) {
        if (j.trust == static_cast<int>(trust) && part_of(j) == part) {
          scored.emplace_back(confidence(w, j.evidence), j.right);
        }
      }
    }
    report_confidence(static_cast<int>(trust), scored);
  }
}

}  // namespace plyscribe::corpus
