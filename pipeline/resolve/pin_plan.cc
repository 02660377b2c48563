#include "resolve/pin_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "resolve/search.h"

namespace plyscribe::resolve {
namespace {

// The tokens of the pin's words.
std::optional<PinnedTokens> laid_over(const Lesson& lesson, const Pin& pin, std::size_t index) {
  const auto& tokens = lesson.lattice.tokens;
  const auto at = [&](std::uint32_t word) {
    return static_cast<std::uint32_t>(
        std::lower_bound(tokens.begin(), tokens.end(), word,
                         [](const hearing::Token& t, std::uint32_t w) { return t.word < w; }) -
        tokens.begin());
  };
  const PinnedTokens out{at(pin.first_word), at(pin.last_word), index, pin, 0};
  if (pin.first_word >= pin.last_word || out.first >= out.last ||
      pin.last_word > tokens.back().word + 1) {
    return std::nullopt;
  }
  return out;
}

// The reading whose context is the pin's: of the same words, else one that begins with them, else
// the mention that they are part of.
std::optional<std::uint32_t> stand_in(const hearing::Lattice& lattice, const PinnedTokens& pin) {
  std::optional<std::uint32_t> out;
  for (std::uint32_t r = lattice.first_at[pin.first]; r < lattice.first_at[pin.first + 1]; ++r) {
    const bool same = lattice.readings[r].last == pin.last;
    if (same || !out) out = r;
    if (same) return out;
  }
  for (std::uint32_t t = pin.first; t < pin.last && !out; ++t) {
    if (lattice.primary_at[t] >= 0) {
      out = lattice.primary[static_cast<std::size_t>(lattice.primary_at[t])];
    }
  }
  return out;
}

void add_reading(Lesson& lesson, PinnedTokens& pin) {
  const auto like = stand_in(lesson.lattice, pin);
  hearing::Reading r;
  r.first = pin.first;
  r.last = pin.last;
  if (like) r.pattern = lesson.lattice.readings[*like].pattern;
  r.strong = r.has_to = r.has_piece = true;
  const std::string& san = pin.pin.kind == Pin::Kind::kMove ? pin.pin.san : pin.pin.line.back();
  r.takes = san.find('x') != std::string::npos;
  pin.reading = static_cast<std::uint32_t>(lesson.lattice.readings.size());
  lesson.lattice.readings.push_back(r);
  // A copy first: the vector may move what it holds when it grows.
  Surroundings around = like ? lesson.around[*like] : Surroundings();
  lesson.around.push_back(std::move(around));
}

void remove_readings(Lesson& lesson) {
  const std::size_t heard = lesson.pins.first_reading;
  if (heard >= lesson.lattice.readings.size()) return;
  lesson.lattice.readings.resize(heard);
  lesson.around.resize(heard);
}

// A pin is noticed by every reading that shares a token with it.
std::uint32_t noticed_from(const hearing::Lattice& lattice, const PinnedTokens& pin) {
  std::uint32_t out = pin.first;
  for (std::uint32_t r = 0; r < lattice.first_at[pin.first]; ++r) {
    if (lattice.readings[r].last > pin.first) {
      out = std::min(out, lattice.readings[r].first);
      break;  // readings come by first token
    }
  }
  return out;
}

bool same_pin(const PinnedTokens& a, const PinnedTokens& b) {
  return a.first == b.first && a.last == b.last && a.pin == b.pin;
}

}  // namespace

const PinnedTokens* PinPlan::over(std::uint32_t first, std::uint32_t last) const {
  if (pins.empty()) return nullptr;
  const PinnedTokens* out = nullptr;
  for (std::size_t k = ahead[first]; k < pins.size() && pins[k].first < last; ++k) {
    if (pins[k].pin.kind != Pin::Kind::kNoMove) return &pins[k];
    out = &pins[k];
  }
  return out;
}

const PinnedTokens* PinPlan::of_reading(std::uint32_t reading) const {
  if (reading < first_reading) return nullptr;
  const auto it = std::find_if(pins.begin(), pins.end(), [&](const PinnedTokens& p) {
    return p.pin.kind != Pin::Kind::kNoMove && p.reading == reading;
  });
  return it == pins.end() ? nullptr : &*it;
}

std::uint32_t set_pins(Lesson& lesson, const std::vector<Pin>& pins) {
  remove_readings(lesson);
  const std::vector<PinnedTokens> before = std::move(lesson.pins.pins);
  const auto count = static_cast<std::uint32_t>(lesson.lattice.tokens.size());
  PinPlan plan;
  plan.first_reading = static_cast<std::uint32_t>(lesson.lattice.readings.size());
  constexpr std::size_t kFree = static_cast<std::size_t>(-1);
  std::vector<std::size_t> owner(count, kFree);
  for (std::size_t i = 0; i < pins.size(); ++i) {
    const auto laid = count == 0 ? std::nullopt : laid_over(lesson, pins[i], i);
    if (!laid) {
      plan.unheld.push_back({i, fmt::format("the lesson has no words {}..{}", pins[i].first_word,
                                            pins[i].last_word)});
      continue;
    }
    if (pins[i].kind == Pin::Kind::kLine && pins[i].line.empty()) {
      plan.unheld.push_back({i, "its line has no moves"});
      continue;
    }
    const auto taken = std::find_if(owner.begin() + laid->first, owner.begin() + laid->last,
                                    [](std::size_t o) { return o != kFree; });
    if (taken != owner.begin() + laid->last) {
      plan.unheld.push_back({i, fmt::format("it shares words with pins[{}]", *taken)});
      continue;
    }
    std::fill(owner.begin() + laid->first, owner.begin() + laid->last, i);
    plan.pins.push_back(*laid);
  }
  std::sort(plan.pins.begin(), plan.pins.end(),
            [](const PinnedTokens& a, const PinnedTokens& b) { return a.first < b.first; });
  plan.ahead.resize(count + 1);
  for (std::uint32_t t = 0, k = 0; t <= count; ++t) {
    while (k < plan.pins.size() && plan.pins[k].last <= t) ++k;
    plan.ahead[t] = k;
  }
  std::uint32_t noticed = count + 1;
  const auto notice_new = [&](const std::vector<PinnedTokens>& these,
                              const std::vector<PinnedTokens>& those) {
    for (const PinnedTokens& p : these) {
      const bool kept = std::any_of(those.begin(), those.end(),
                                    [&](const PinnedTokens& q) { return same_pin(p, q); });
      if (!kept) noticed = std::min(noticed, noticed_from(lesson.lattice, p));
    }
  };
  notice_new(before, plan.pins);
  notice_new(plan.pins, before);
  for (PinnedTokens& p : plan.pins) {
    if (p.pin.kind != Pin::Kind::kNoMove) add_reading(lesson, p);
  }
  lesson.pins = std::move(plan);
  return noticed;
}

}  // namespace plyscribe::resolve
