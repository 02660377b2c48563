#include "resolve/confidence.h"

#include <algorithm>
#include <cmath>

namespace plyscribe::resolve {

std::string_view sign_name(Sign s) {
  static constexpr std::array<std::string_view, kSigns> kNames = {
      "always",  "share",   "parent", "cost",    "mended",  "policy",      "log-share",   "sibling",
      "higher",  "jumped",  "revisit", "bridged", "passed-near", "mended-near", "next-exact", "weak", "start"};
  return kNames[static_cast<std::size_t>(s)];
}

double log_odds(double p, double limit) {
  const double q = std::clamp(p, 1e-6, 1 - 1e-6);
  return std::clamp(std::log(q / (1 - q)), -limit, limit);
}

double confidence(const ConfidenceWeights& weights, const Evidence& e) {
  double sum = 0;
  for (std::size_t i = 0; i < kSigns; ++i) {
    sum += static_cast<double>(weights[i]) * static_cast<double>(e.signs[i]);
  }
  return 1 / (1 + std::exp(-sum));
}

}  // namespace plyscribe::resolve
