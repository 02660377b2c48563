// Which hypotheses go on from a token: the best, one of a kind, few at one cursor, and, while it is
// open where the lesson starts, few with one start.
#include <algorithm>
#include <cmath>
#include <unordered_map>
#include <utility>

#include "resolve/search.h"
#include "resolve/search_candidate.h"

namespace plyscribe::resolve {
namespace {

constexpr std::size_t kCrowd = 4;  // as many beams pending at a token are thinned out

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
  std::unordered_map<std::uint64_t, std::size_t> twins;  // by key: 1 + the place in chosen
  std::unordered_map<std::uint64_t, std::size_t> by_cursor;
  std::unordered_map<LineId, std::size_t> by_start;
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
    std::size_t& twin = twins[c.key];
    if (twin != 0) {
      // The same state by another way: as right as the right one from here on.
      if (c.gold >= 0) {
        chosen[twin - 1]->gold = std::max(chosen[twin - 1]->gold, c.gold);
        gold_kept = gold_kept || &c == best_gold;
      }
      continue;
    }
    std::size_t* of_start = nullptr;
    if (open != nullptr) {
      const LineId start = start_of(c);
      of_start = &by_start[start];
      const bool one_too_many = *of_start == 0 && start != staying_ && starts >= open->starts;
      if (one_too_many || *of_start >= open->share) continue;
    }
    std::size_t& at_cursor = by_cursor[c.line];
    if (at_cursor >= config_.per_cursor) continue;
    ++at_cursor;
    if (of_start != nullptr && ++*of_start == 1 && start_of(c) != staying_) ++starts;
    twin = chosen.size() + 1;
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
