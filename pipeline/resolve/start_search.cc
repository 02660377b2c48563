#include "resolve/start_search.h"

#include <algorithm>
#include <cmath>
#include <unordered_set>
#include <utility>

#include "resolve/conversion.h"

namespace plyscribe::resolve {
namespace {

constexpr double kTemperature = 4;     // nats of the search for one of certainty
constexpr double kCleanBelow = 0.055;  // share of mends under which notation is taken as clean

// Likely mentions after which the last search ends, where no more than one start is left: enough to
// tell whether the notation can be trusted.
constexpr std::size_t kEnough = 120;

struct Look {
  std::size_t until;  // likely mentions
  std::vector<StartStage> stages;
  std::size_t kept;  // starts that go on
  float apart;       // nats: worse ones do not
};

const std::vector<Look>& looks() {
  static const std::vector<Look> all = {
      {24, {{10, 300, 3}, {SIZE_MAX, 60, 8}}, 24, 1e9F},
      {40, {{SIZE_MAX, 24, 20}}, 8, 1e9F},
      {170, {{60, 8, 40}, {130, 5, 40, 30}, {SIZE_MAX, 3, 40, 25}}, 2, kNearTie},
  };
  return all;
}

bool one_start(const Search& search, std::uint32_t token) {
  const auto& beam = search.beam(token);
  const auto root = [&](std::int32_t i) { return search.at(i).tree->nodes[0].line; };
  return !beam.empty() && std::all_of(beam.begin(), beam.end(),
                                      [&](std::int32_t i) { return root(i) == root(beam[0]); });
}

// Where so many likely mentions have been heard from a token on.
std::uint32_t heard_by(const hearing::Lattice& lattice, std::uint32_t from, std::size_t mentions) {
  for (const std::uint32_t i : lattice.primary) {
    const std::uint32_t at = lattice.readings[i].first;
    if (at >= from && mentions-- == 0) return at;
  }
  return static_cast<std::uint32_t>(lattice.tokens.size());
}

// Of the moves that the best hypothesis placed, the share that it had to hear differently.
double mended_share(const Search& search, std::uint32_t token, const Lesson& lesson,
                    const LineTree& lines) {
  if (search.beam(token).empty()) return 1;
  double placed = 0;
  double mended = 0;
  for (std::int32_t i : best_chain(search, token)) {
    const Hypothesis& h = search.at(i);
    if (h.reading == kNoReading || h.last_action == Action::kNone) continue;
    const Line& line = lines.at(h.line);
    if (line.parent == kNoLine) continue;
    const auto fit = hearing::match(lesson.lattice.readings[h.reading],
                                    lines.at(line.parent).position, line.move, false);
    ++placed;
    if ((fit.mends & (kHeardOtherwise | hearing::kCaptureUnsaid)) != 0) ++mended;
  }
  return mended / std::max(placed, 1.0);
}

// Does one begin on the way to the other? Then moves of the two are the same moves.
bool on_one_way(const Start& a, const Start& b) {
  const std::size_t shorter = std::min(a.moves.size(), b.moves.size());
  return a.how != "position told" && b.how != "position told" &&
         std::equal(a.moves.begin(), a.moves.begin() + static_cast<std::ptrdiff_t>(shorter),
                    b.moves.begin());
}

// Of many starts, those that make most sense of what was heard by a token. That the first moves of
// the game are all said shows late: the initial position stays for the last look.
void keep_best(const Search& search, std::uint32_t seen, const Look& look,
               const std::unordered_map<LineId, std::size_t>& start_of, NarrowedStarts& out) {
  const auto& beam = search.beam(seen);  // the best first
  const bool last = &look == &looks().back();
  std::vector<StartOption> kept;
  std::unordered_set<LineId> roots;
  double all = 0;
  double same = 0;  // with the best one and those on its way
  const auto start_at = [&](std::int32_t i) -> const StartOption& {
    return out.starts[start_of.at(search.at(i).tree->nodes[0].line)];
  };
  for (const std::int32_t i : beam) {
    const LineId root = search.at(i).tree->nodes[0].line;
    if (!roots.insert(root).second) continue;
    const float behind = search.at(beam[0]).score - search.at(i).score;
    const StartOption& start = start_at(i);
    const StartOption& best = start_at(beam[0]);
    const double share = std::exp(-static_cast<double>(behind) / kTemperature);
    all += share;
    if (&start == &best || on_one_way(start.start, best.start)) same += share;
    const bool stays = !last && start.start.how == "moves said";
    if ((kept.size() < look.kept && behind < look.apart) || stays) kept.push_back(start);
  }
  if (kept.empty()) {  // the lesson begins after all that was heard
    kept.assign(out.starts.begin(), out.starts.begin() + static_cast<std::ptrdiff_t>(std::min(
                                                             look.kept, out.starts.size())));
  }
  out.share = all > 0 ? same / all : 1;
  out.starts = std::move(kept);
}

}  // namespace

std::unordered_map<LineId, std::size_t> seed_starts(const std::vector<StartOption>& starts,
                                                    LineTree& lines, Search& search) {
  std::unordered_map<LineId, std::size_t> start_of;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    const StartOption& s = starts[i];
    auto tree = std::make_shared<HypothesisTree>();
    TreeNode root;
    root.line = lines.root(s.start.position);
    if (!start_of.try_emplace(root.line, i).second) continue;
    tree->nodes.push_back(root);
    tree->hash = lines.at(root.line).hash;
    Hypothesis h;
    h.tree = std::move(tree);
    h.score = s.gain;
    h.token = s.token;
    h.last_end = s.token;
    search.seed(std::move(h), s.start.moves, s.start.how == "moves said");
  }
  return start_of;
}

NarrowedStarts narrow_starts(const Lesson& lesson, const Model& model, LineTree& lines,
                             std::vector<StartOption> starts,
                             const std::function<void(double)>& progress) {
  NarrowedStarts out{std::move(starts)};
  const bool dictated = lesson.trust == Trust::kDictated;
  for (const Look& look : looks()) {
    const bool last = &look == &looks().back();
    const bool open = out.starts.size() > 1;
    if (last ? !open && !dictated : out.starts.size() <= look.kept) continue;
    SearchConfig narrow;
    narrow.beam = 20;
    narrow.per_cursor = 2;
    if (open) narrow.stages = look.stages;
    Search search(lesson, model, lines, narrow);
    const auto start_of = seed_starts(out.starts, lines, search);
    std::uint32_t from = search.tokens();
    for (const StartOption& s : out.starts) from = std::min(from, s.token);
    const std::uint32_t end = heard_by(lesson.lattice, from, look.until);
    const std::uint32_t enough = last ? heard_by(lesson.lattice, from, kEnough) : end;
    std::uint32_t seen = 0;
    for (;; ++seen) {
      search.step(seen);
      if (progress && last) progress(static_cast<double>(seen) / std::max(1U, end));
      if (seen == end || (seen >= enough && one_start(search, seen))) break;
    }
    if (last && dictated) out.clean = mended_share(search, seen, lesson, lines) < kCleanBelow;
    if (open) keep_best(search, seen, look, start_of, out);
  }
  return out;
}

}  // namespace plyscribe::resolve
