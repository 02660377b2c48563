// Which hypotheses go on from a token: the best, one of a kind, few at one cursor, and, while it is
// open where the lesson starts, few with one start.
#include <algorithm>
#include <bit>
#include <cmath>
#include <utility>

#include "resolve/search.h"
#include "resolve/search_candidate.h"

namespace plyscribe::resolve {
namespace {

constexpr std::size_t kCrowd = 4;  // as many beams pending at a token are thinned out

// A number for each of a few keys, zero at first. Asked for at every candidate, so it lies flat:
// open addressing, never more than half full.
class Numbers {
 public:
  explicit Numbers(std::size_t most_keys) : places_(std::bit_ceil(2 * most_keys + 2)) {}
  std::uint32_t& of(std::uint64_t key) {
    const std::size_t mask = places_.size() - 1;
    std::size_t i = static_cast<std::size_t>(key * 0x9e3779b97f4a7c15ULL >> 32) & mask;
    while (places_[i].taken && places_[i].key != key) i = (i + 1) & mask;
    if (!places_[i].taken) places_[i] = {key, 0, true};
    return places_[i].number;
  }

 private:
  struct Place {
    std::uint64_t key = 0;
    std::uint32_t number = 0;
    bool taken = false;
  };
  std::vector<Place> places_;
};

}  // namespace

void Search::keep(std::uint32_t token, Candidate&& candidate) {
  if (watch_ != nullptr) return;  // carried on: no step to weigh
  if (candidate.gold < 0) {
    if (candidate.score < floor_at_[token]) return;
    floor_at_[token] = std::max(floor_at_[token], candidate.score - margin(token));
  }
  auto& pending = pending_[token];
  if (pending.empty()) pending.reserve(kCrowd * room(token));
  pending.push_back(std::move(candidate));
  if (pending.size() >= kCrowd * room(token) && guide_ == nullptr) thin(token);
}

const StartStage* Search::stage(std::uint32_t token) const {
  for (const StartStage& s : config_.stages) {
    if (heard_[token] < heard_first_ || heard_[token] - heard_first_ < s.until) return &s;
  }
  return nullptr;
}

std::size_t Search::room(std::uint32_t token) const {
  const StartStage* open = stage(token);
  if (open == nullptr) return config_.beam;
  return (open->starts + (staying_ != kNoLine ? 1 : 0)) * open->share;
}

float Search::margin(std::uint32_t token) const {
  const StartStage* open = stage(token);
  return open != nullptr ? open->margin : config_.margin;
}

// Keeps only those that would be chosen now. The others never will be, whatever comes: each is
// outdone by a twin, by those at its cursor or with its start, or by a whole beam.
void Search::thin(std::uint32_t token) {
  auto& pending = pending_[token];
  std::vector<Candidate*> chosen = choose(token);
  if (chosen.size() == room(token)) {  // a later one must do better than the last of them
    floor_at_[token] = std::nextafter(chosen.back()->score, 1e30F);
  }
  std::sort(chosen.begin(), chosen.end());  // in the order in which they came
  std::vector<Candidate> kept;
  kept.reserve(pending.capacity());
  for (Candidate* c : chosen) kept.push_back(std::move(*c));
  pending = std::move(kept);
}

// Nothing was read that ends here: those of the token before go on as they were chosen there.
bool Search::only_carried(std::uint32_t token) const {
  const auto& pending = pending_[token];
  return token > 0 && guide_ == nullptr && pending.size() == beams_[token - 1].size() &&
         stage(token) == stage(token - 1) &&
         std::all_of(pending.begin(), pending.end(), [](const Candidate& c) { return c.carried; });
}

// Of those pending at a token the best, the best first: one of a kind, few at one cursor, while the
// start is open not too many with one.
std::vector<Search::Candidate*> Search::choose(std::uint32_t token) {
  auto& pending = pending_[token];
  if (only_carried(token)) {
    std::vector<Candidate*> all;
    for (Candidate& c : pending) all.push_back(&c);
    return all;
  }
  struct Place {
    float score;
    std::uint32_t index;
  };
  std::vector<Place> order;  // a heap, the best on top; ties: the earlier
  order.reserve(pending.size());
  for (const Candidate& c : pending) {
    order.push_back({c.score, static_cast<std::uint32_t>(order.size())});
  }
  const auto worse = [](const Place& a, const Place& b) {
    return a.score != b.score ? a.score < b.score : a.index > b.index;
  };
  std::make_heap(order.begin(), order.end(), worse);
  const StartStage* const open = stage(token);
  const std::size_t most = room(token);
  Numbers twins(pending.size());  // by key: 1 + the place in chosen
  Numbers by_cursor(pending.size());
  Numbers by_start(open != nullptr ? pending.size() : 0);
  std::size_t starts = 0;  // that have a place, but for the one that stays
  Candidate* best_gold = nullptr;
  bool gold_kept = false;
  std::vector<Candidate*> chosen;
  const auto start_of = [&](const Candidate& c) {
    return hypotheses_[static_cast<std::size_t>(c.from)].tree->nodes[0].line;
  };
  for (auto end = order.end(); end != order.begin(); --end) {
    std::pop_heap(order.begin(), end, worse);
    Candidate& c = pending[(end - 1)->index];
    // Of right ones, that which has done most: others may only be late to find that they passed
    // over something.
    if (c.gold >= 0 && (best_gold == nullptr || c.gold > best_gold->gold)) {
      best_gold = &c;
      gold_kept = false;
    }
    if (chosen.size() >= most) {
      if (guide_ == nullptr) break;
      continue;
    }
    std::uint32_t& twin = twins.of(c.key);
    if (twin != 0) {
      // The same state by another way: as right as the right one from here on.
      if (c.gold >= 0) {
        chosen[twin - 1]->gold = std::max(chosen[twin - 1]->gold, c.gold);
        gold_kept = gold_kept || &c == best_gold;
      }
      continue;
    }
    std::uint32_t* of_start = nullptr;
    if (open != nullptr) {
      const LineId start = start_of(c);
      of_start = &by_start.of(start);
      const bool one_too_many = *of_start == 0 && start != staying_ && starts >= open->starts;
      if (one_too_many || *of_start >= open->share) continue;
    }
    std::uint32_t& at_cursor = by_cursor.of(c.line);
    if (at_cursor >= config_.per_cursor) continue;
    ++at_cursor;
    if (of_start != nullptr && ++*of_start == 1 && start_of(c) != staying_) ++starts;
    twin = static_cast<std::uint32_t>(chosen.size() + 1);
    gold_kept = gold_kept || &c == best_gold;
    chosen.push_back(&c);
  }
  if (guide_ != nullptr && best_gold != nullptr && !gold_kept) {
    lost_gold_ = true;
    chosen.push_back(best_gold);
  }
  return chosen;
}

}  // namespace plyscribe::resolve
