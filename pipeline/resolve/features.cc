#include "resolve/features.h"

#include <algorithm>
#include <bit>

namespace plyscribe::resolve {
namespace {

using board::Color;

template <std::size_t N>
std::size_t bucket_of(std::uint32_t value, const std::array<std::uint32_t, N>& limits) {
  std::size_t b = 0;
  while (b < N && value > limits[b]) ++b;
  return b;
}

std::size_t index_of(Action a) { return static_cast<std::size_t>(a); }

// Strongest break between two tokens: none, comma, sentence, paragraph.
std::size_t break_between(const Lesson& lesson, std::uint32_t from, std::uint32_t to) {
  std::size_t out = 0;
  for (std::uint32_t t = to; t > from && t + 60 > to; --t) {
    out = std::max<std::size_t>(out, lesson.break_before[t]);
    if (out == 3) break;
  }
  return out;
}

// An unexplored leaf: told, and nothing played from it.
bool is_leaf(const TreeNode& n) { return n.children == 0; }

// Children are linked newest first: the earliest told child without children of its own.
std::int32_t first_unexplored(const HypothesisTree& tree, std::int32_t parent) {
  std::int32_t out = -1;
  for (std::int32_t c = tree.nodes[static_cast<std::size_t>(parent)].first_child; c >= 0;
       c = tree.nodes[static_cast<std::size_t>(c)].next_sibling) {
    if (is_leaf(tree.nodes[static_cast<std::size_t>(c)])) out = c;
  }
  return out;
}

void move_features(const StepFacts& f, const Placement& p, FeatureSink& sink) {
  const hearing::Reading& r = f.lesson.lattice.readings[f.reading];
  const auto trust = static_cast<std::size_t>(f.lesson.trust);
  const std::size_t a = index_of(p.action);
  const Fit& fit = *p.fit;
  sink.add(Slot::kChannel, trust * 2 + (r.by_ear ? 1 : 0), -fit.match.cost);
  if (r.by_ear) {
    sink.add(Slot::kBackground, trust, r.background);
    sink.add(Slot::kByEar, a * 3 + trust);
  }
  for (unsigned mends = fit.match.mends; mends != 0; mends &= mends - 1) {
    sink.add(Slot::kMend, static_cast<std::size_t>(std::countr_zero(mends)) * 3 + trust);
  }
  const float lp = std::max(fit.log_prob, -12.0F);
  if (p.node < 0) {  // a new move
    sink.add(Slot::kLogPolicy, a, lp);
    if (lp < -5) sink.add(Slot::kUnlikely, a * 3);
    if (lp < -7) sink.add(Slot::kUnlikely, a * 3 + 1);
    if (lp < -9) sink.add(Slot::kUnlikely, a * 3 + 2);
    sink.add(Slot::kBook, a * 3 + (!fit.in_book ? 2 : lp > -5 ? 0 : 1));
  }
  sink.add(Slot::kLogShare, a, std::max(fit.log_share, -8.0F));

  const SideNamed named = f.lesson.around[f.reading].side;
  if (named == SideNamed::kWhite || named == SideNamed::kBlack) {
    const Color said = named == SideNamed::kWhite ? Color::kWhite : Color::kBlack;
    sink.add(Slot::kSideNamed, a * 3 + (said == fit.mover ? 0 : 1));
  } else if (named == SideNamed::kNobody) {
    sink.add(Slot::kSideNamed, a * 3 + 2);
  } else if (f.lesson.side) {
    const Color said = named == SideNamed::kWe ? *f.lesson.side : ~*f.lesson.side;
    sink.add(Slot::kLessonSide, a * 2 + (said == fit.mover ? 0 : 1));
  }
}

void branch_features(const Stance& s, const StepFacts& f, const Placement& p, FeatureSink& sink) {
  const auto& nodes = s.tree.nodes;
  const auto at = static_cast<std::size_t>(p.at);
  const std::size_t up = static_cast<std::size_t>(s.path_up[at]);  // 1 = beside the last move
  sink.add(Slot::kBranch, std::min<std::size_t>(up, 19));
  std::size_t crossed = 0;
  bool nearest = nodes[at].children >= 2;
  for (std::size_t k = 1; k < up; ++k) {
    if (nodes[static_cast<std::size_t>(s.path[k])].children >= 2) {
      ++crossed;
      nearest = false;
    }
  }
  sink.add(Slot::kCrossed, std::min<std::size_t>(crossed, 7));
  sink.add(Slot::kSiblings, std::min<std::size_t>(nodes[at].children, 4) + 5 * (up % 2));
  sink.add(Slot::kNearestBranch, (nearest ? 1 : 0) + 2 * (p.action == Action::kUp ? 1 : 0));

  // The move it stands beside.
  const board::Move m = p.fit->move;
  const Line& line = f.lines.at(nodes[at].line);
  std::size_t kind = 3;
  for (std::int32_t c = nodes[at].first_child; c >= 0; c = nodes[static_cast<std::size_t>(c)].next_sibling) {
    const board::Move other = nodes[static_cast<std::size_t>(c)].move;
    if (other.to() == m.to()) {
      kind = 0;
    } else if (kind > 1 && line.position.type_at(other.from()) == line.position.type_at(m.from())) {
      kind = 1;
    } else if (kind > 2 && line.position.is_capture(other) && line.position.is_capture(m)) {
      kind = 2;
    }
  }
  sink.add(Slot::kAlternative, kind + 4 * (p.action == Action::kUp ? 1 : 0));
}

void referral_features(const Stance& s, const StepFacts& f, const Placement& p, FeatureSink& sink) {
  if (f.referred == nullptr) return;
  const std::size_t group = p.action == Action::kSib ? 0
                            : p.action == Action::kUp ? 1
                            : p.action == Action::kJump ? 2
                            : p.action == Action::kPlay ? 3
                            : p.action == Action::kBack ? 4
                                                        : 5;
  if (group == 5) return;
  const auto& nodes = s.tree.nodes;
  // "Instead of X, Y": Y stands beside X.  "After X, Y": Y is played from X.
  std::uint8_t child = 0;
  for (std::int32_t c = nodes[static_cast<std::size_t>(p.at)].first_child; c >= 0;
       c = nodes[static_cast<std::size_t>(c)].next_sibling) {
    child = std::max(child, (*f.referred)[static_cast<std::size_t>(c)]);
  }
  const std::uint8_t self = (*f.referred)[static_cast<std::size_t>(p.at)];
  if (child != 0) sink.add(Slot::kReferred, group * 4 + child - 1);
  if (self != 0) sink.add(Slot::kReferred, group * 4 + 2 + self - 1);
}

void back_features(const Stance& s, const StepFacts& f, const Placement& p, FeatureSink& sink) {
  const auto& nodes = s.tree.nodes;
  const auto n = static_cast<std::size_t>(p.node);
  const hearing::Reading& r = f.lesson.lattice.readings[f.reading];
  const std::size_t gap = s.broken;
  const bool leaf = is_leaf(nodes[n]);
  const bool on_path = s.path_up[n] >= 0;
  std::size_t kind = 0;
  if (p.node == s.h.cursor) {
    kind = leaf ? 0 : 1;
  } else if (on_path) {
    kind = nodes[n].children >= 2 ? 2 : 3;
  } else if (leaf) {
    kind = first_unexplored(s.tree, p.at) == p.node ? 4 : 5;
  } else {
    kind = s.path_up[static_cast<std::size_t>(p.at)] >= 0 ? 6 : 7;
  }
  sink.add(Slot::kBackKind, kind * 3 + std::min<std::size_t>(gap > 0 ? gap - 1 : 0, 2));
  const auto climb = static_cast<std::uint32_t>(std::max<std::int16_t>(s.meets_up[n], 0));
  sink.add(Slot::kBackDepth,
           bucket_of(climb, std::array<std::uint32_t, 5>{0, 1, 2, 4, 8}) + (leaf ? 6 : 0));
  const std::uint32_t age = r.first > nodes[n].last_token ? r.first - nodes[n].last_token : 0;
  sink.add(Slot::kBackAge,
           bucket_of(age, std::array<std::uint32_t, 5>{6, 20, 60, 150, 400}) + (leaf ? 6 : 0));
  sink.add(Slot::kBackMatches, static_cast<std::size_t>(std::clamp(f.known_matches, 1, 5) - 1));
}

void jump_features(const Stance& s, const Placement& p, FeatureSink& sink) {
  const auto& nodes = s.tree.nodes;
  const auto n = static_cast<std::size_t>(p.at);
  const bool leaf = is_leaf(nodes[n]);
  const std::size_t climb = s.meets_up[n] <= 1 ? 0 : s.meets_up[n] <= 4 ? 1 : 2;
  sink.add(Slot::kJumpKind, (leaf ? 0 : 8) + (s.broken == 3 ? 4 : 0) + climb);
}

}  // namespace

void FeatureSink::keep(std::uint32_t id, float value) { keep_->emplace_back(id, value); }

Stance stance_of(const Hypothesis& h, const Lesson& lesson) {
  Stance s{h, *h.tree, {}, {}, {}, {}, break_between(lesson, h.last_end, h.token)};
  const auto& nodes = h.tree->nodes;
  s.path_up.assign(nodes.size(), -1);
  s.meets_up.assign(nodes.size(), 0);
  s.child_targets.assign(nodes.size(), 0);
  std::int16_t up = 0;
  for (std::int32_t n = h.cursor; n >= 0; n = nodes[static_cast<std::size_t>(n)].parent) {
    s.path.push_back(n);
    s.path_up[static_cast<std::size_t>(n)] = up++;
  }
  for (std::size_t n = 0; n < nodes.size(); ++n) {  // parents come first
    s.meets_up[n] = s.path_up[n] >= 0 || nodes[n].parent < 0
                        ? s.path_up[n]
                        : s.meets_up[static_cast<std::size_t>(nodes[n].parent)];
    if (nodes[n].parent >= 0) {
      s.child_targets[static_cast<std::size_t>(nodes[n].parent)] |= board::bit(nodes[n].move.to());
    }
  }
  return s;
}

void placement_features(const Stance& s, const StepFacts& f, const Placement& p, FeatureSink& sink) {
  const hearing::Reading& r = f.lesson.lattice.readings[f.reading];
  const auto trust = static_cast<std::size_t>(f.lesson.trust);
  const std::size_t a = index_of(p.action);
  const std::uint32_t gap = r.first > s.h.last_end ? r.first - s.h.last_end : 0;
  const std::size_t gap_bucket = bucket_of(gap, std::array<std::uint32_t, 5>{0, 1, 3, 8, 20});
  sink.add(Slot::kAction, a * 3 + trust);
  if (gap_bucket <= 3 || s.h.last_action == Action::kNone) {
    sink.add(Slot::kActionPair, index_of(s.h.last_action) * kActions + a);
  }
  sink.add(Slot::kActionGap, a * 6 + gap_bucket);
  sink.add(Slot::kActionBreak, a * 4 + s.broken);
  const std::size_t shape = r.has_to ? (r.has_piece && r.takes ? 0 : 1) : r.takes ? 2 : 3;
  sink.add(Slot::kPatternFit, shape * kActions + a);

  if (p.action == Action::kNone) {
    if (f.recap) {
      sink.add(Slot::kRecap, s.h.tree->nodes.size() == 1 ? 0 : 1);
      return;
    }
    const float b = f.best_here;
    const std::size_t fit = b < -50 ? 0 : b < -7 ? 1 : b < -5 ? 2 : b < -3.5F ? 3 : b < -2 ? 4 : 5;
    sink.add(Slot::kNoneFit, fit + (f.known_matches > 0 ? 6 : 0));
    // One is an idea or misheard; one after another, the board is not the speaker's any more.
    if (f.fits_nowhere) sink.add(Slot::kUnfit, trust * 8 + std::min<std::size_t>(s.h.unfit, 7));
    return;
  }
  move_features(f, p, sink);
  referral_features(s, f, p, sink);
  if (p.twice) {
    sink.add(Slot::kTwice, !r.twice ? 2 : r.castle != 0 ? 0 : 1);
  } else if (p.unsaid > 0) {
    const auto gap = static_cast<std::size_t>(p.gap);
    sink.add(Slot::kUnsaid, static_cast<std::size_t>(std::min(p.unsaid, 4) - 1) + 4 * gap);
    sink.add(Slot::kUnsaidLog, gap, p.unsaid_log);
  }
  switch (p.action) {
    case Action::kSib:
    case Action::kUp:
      branch_features(s, f, p, sink);
      break;
    case Action::kBack:
    case Action::kWalk:
      back_features(s, f, p, sink);
      break;
    case Action::kJump:
      jump_features(s, p, sink);
      break;
    default:
      break;
  }
}

}  // namespace plyscribe::resolve
