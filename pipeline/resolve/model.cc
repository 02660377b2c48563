#include "resolve/model.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <numeric>

#include "embedded/weights_tsv.h"
#include "resolve/policy.h"

namespace plyscribe::resolve {

namespace {

[[noreturn]] void broken(std::string_view line) {
  std::fprintf(stderr, "resolve/weights.tsv: cannot read '%.*s'\n", static_cast<int>(line.size()),
               line.data());
  std::abort();
}

}  // namespace

Model::Model()
    : weights(structural_features(), 0.0F), policy(policy_feature_names().size(), 0.0F) {
  // Before anything is fitted: the share of the beam, taken down a little.
  for (ConfidenceWeights& w : confidence) w[static_cast<std::size_t>(Sign::kShare)] = 0.6F;
}

std::uint32_t Model::context_id(const std::string& s) const {
  const auto it = ids_.find(s);
  return it == ids_.end() ? kUnknown : it->second;
}

std::uint32_t Model::add_context(const std::string& s) {
  const auto [it, added] = ids_.emplace(s, static_cast<std::uint32_t>(names_.size()));
  if (added) {
    names_.push_back(s);
    weights.resize(weights.size() + kActions, 0.0F);
  }
  return it->second;
}

Model Model::parse(std::string_view text) {
  Model model;
  std::unordered_map<std::string, std::uint32_t> slots;
  for (std::size_t i = 0; i < kSlotShapes.size(); ++i) {
    slots.emplace(kSlotShapes[i].name, kSlotOffsets[i]);
  }
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string line(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    if (line.empty() || line[0] == '#') continue;
    const std::size_t tab = line.find('\t');
    if (tab == std::string::npos) broken(line);
    const std::string name = line.substr(0, tab);
    const char* numbers = line.c_str() + tab + 1;
    if (name.starts_with("policy:")) {
      const auto& names = policy_feature_names();
      const auto it = std::find(names.begin(), names.end(), name.substr(7));
      if (it == names.end()) broken(line);
      model.policy[static_cast<std::size_t>(it - names.begin())] = std::strtof(numbers, nullptr);
    } else if (name.starts_with("confidence:")) {
      const std::size_t colon = name.rfind(':');
      const std::string sign = name.substr(11, colon - 11);
      std::size_t i = 0;
      while (i < kSigns && sign_name(static_cast<Sign>(i)) != sign) ++i;
      const auto trust = static_cast<std::size_t>(std::atoi(name.c_str() + colon + 1));
      if (i == kSigns || trust >= model.confidence.size()) broken(line);
      model.confidence[trust][i] = std::strtof(numbers, nullptr);
    } else if (name.starts_with("slot:")) {
      const std::size_t colon = name.rfind(':');
      const auto it = slots.find(name.substr(5, colon - 5));
      if (it == slots.end()) broken(line);
      const auto bucket = static_cast<std::uint32_t>(std::atoi(name.c_str() + colon + 1));
      model.weights[it->second + bucket] = std::strtof(numbers, nullptr);
    } else {
      const std::uint32_t id = model.add_context(name);
      char* next = nullptr;
      for (std::size_t a = 0; a < kActions; ++a) {
        model.weights[model.context_weight(id, static_cast<Action>(a))] = std::strtof(numbers, &next);
        if (next == numbers) broken(line);
        numbers = next;
      }
    }
  }
  return model;
}

std::string Model::serialise() const {
  std::string out =
      "# Weights of the search, written by corpus/train (see corpus/README.md). Gains in nats.\n";
  for (std::size_t i = 0; i < policy.size(); ++i) {
    out += fmt::format("policy:{}\t{:.4g}\n", policy_feature_names()[i], policy[i]);
  }
  for (std::size_t trust = 0; trust < confidence.size(); ++trust) {
    for (std::size_t i = 0; i < kSigns; ++i) {
      out += fmt::format("confidence:{}:{}\t{:.4g}\n", sign_name(static_cast<Sign>(i)), trust,
                         confidence[trust][i]);
    }
  }
  for (std::size_t i = 0; i < kSlotShapes.size(); ++i) {
    for (std::uint32_t b = 0; b < kSlotShapes[i].buckets; ++b) {
      const float w = weights[kSlotOffsets[i] + b];
      if (w != 0) out += fmt::format("slot:{}:{}\t{:.4g}\n", kSlotShapes[i].name, b, w);
    }
  }
  std::vector<std::uint32_t> order(names_.size());
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(),
            [this](std::uint32_t a, std::uint32_t b) { return names_[a] < names_[b]; });
  for (std::uint32_t id : order) {
    bool any = false;
    std::string row = names_[id] + '\t';
    for (std::size_t a = 0; a < kActions; ++a) {
      const float w = weights[context_weight(id, static_cast<Action>(a))];
      any = any || std::abs(w) > 0.005F;
      row += fmt::format("{}{:.3g}", a == 0 ? "" : " ", std::abs(w) > 0.005F ? w : 0.0F);
    }
    if (any) out += row + '\n';
  }
  return out;
}

const Model& shipped_model() {
  static const Model model = Model::parse(embedded::weights_tsv);
  return model;
}

}  // namespace plyscribe::resolve
