#include "lesson/chapters.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "board/notation.h"
#include "lexicon/openings.h"

namespace plyscribe::lesson {
namespace {

constexpr double kWorthAChapter = 0.03;  // of the lesson's talk
constexpr double kWorthDividing = 0.25;
constexpr double kTrunk = 0.85;  // a child with so much of the talk goes on in its parent's branch
constexpr double kStays = 12;    // seconds on a branch that are more than a mention in passing
constexpr std::size_t kWholeLine = 4;  // moves of a title; of longer lines, the first and the last

std::size_t index(NodeId id) { return static_cast<std::size_t>(id); }

// A stretch of talk while the board stood at one node: until the next move is named.
struct Stretch {
  double t = 0, t_end = 0;
  NodeId node = 0;
  bool named = false;  // begins with a move of the tree, not with an idea
};

std::vector<Stretch> stretches_of(const Lesson& lesson) {
  std::vector<Stretch> all{{0, 0, 0, false}};
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    for (const Mention& m : lesson.nodes[i].mentions) {
      all.push_back({m.span.t, 0, static_cast<NodeId>(i), true});
    }
  }
  for (const Idea& idea : lesson.ideas) all.push_back({idea.span.t, 0, idea.node, false});
  std::stable_sort(all.begin(), all.end(),
                   [](const Stretch& a, const Stretch& b) { return a.t < b.t; });
  for (std::size_t i = 0; i < all.size(); ++i) {
    all[i].t_end = std::max(all[i].t, i + 1 < all.size() ? all[i + 1].t : lesson.duration);
  }
  return all;
}

// Names of the openings table by position.
const std::unordered_map<std::string, std::string_view>& opening_names() {
  static const auto names = [] {
    std::unordered_map<std::string, std::string_view> map;
    for (const lexicon::Opening& o : lexicon::openings()) {
      board::Position p = board::Position::initial();
      const auto moves = board::parse_line(p, o.moves);
      if (!moves) continue;
      for (const board::Move m : *moves) p = p.after(m);
      map.emplace(board::to_fen_placement(p), o.name);
    }
    return map;
  }();
  return names;
}

class Divider {
 public:
  explicit Divider(const Lesson& lesson)
      : lesson_(lesson),
        stretches_(stretches_of(lesson)),
        seconds_(lesson.nodes.size(), 0),
        children_(lesson.nodes.size()),
        branch_(lesson.nodes.size(), 0) {
    for (const Stretch& s : stretches_) seconds_[index(s.node)] += s.t_end - s.t;
    for (std::size_t i = lesson.nodes.size(); i-- > 1;) {
      const std::size_t parent = index(lesson.nodes[i].parent);
      seconds_[parent] += seconds_[i];
      children_[parent].push_back(static_cast<NodeId>(i));
    }
  }

  std::vector<Chapter> run() {
    divide(0);
    for (std::size_t i = 1; i < lesson_.nodes.size(); ++i) {
      if (branch_[i] == 0) branch_[i] = branch_[index(lesson_.nodes[i].parent)];
    }
    return in_order();
  }

 private:
  // Marks the branches below the node that are worth a chapter, and theirs.
  void divide(NodeId root) {
    std::vector<NodeId> open{root};
    while (!open.empty()) {
      const NodeId fork = end_of_trunk(open.back());
      open.pop_back();
      for (const NodeId child : children_[index(fork)]) {
        const double share = seconds_[index(child)] / std::max(seconds_[0], 1.0);
        if (share >= kWorthAChapter) branch_[index(child)] = child;
        if (share >= kWorthDividing) open.push_back(child);
      }
    }
  }

  NodeId end_of_trunk(NodeId id) const {
    for (;;) {
      const auto& children = children_[index(id)];
      double below = 0;
      for (const NodeId c : children) below += seconds_[index(c)];
      const auto on = std::find_if(children.begin(), children.end(),
                                   [&](NodeId c) { return seconds_[index(c)] >= kTrunk * below; });
      if (on == children.end() || below <= 0) return id;
      id = *on;
    }
  }

  // Where the talk first stays with the branch and goes on in it, or stays longest if it never
  // does: talk behind a list of moves is not about the last of them.
  std::optional<double> beginning(NodeId branch) const {
    double longest = 0;
    std::optional<double> t;
    for (std::size_t i = 0; i < stretches_.size();) {
      std::size_t end = i, moves = 0;
      for (; end < stretches_.size() && branch_[index(stretches_[end].node)] == branch; ++end) {
        moves += stretches_[end].named ? 1 : 0;
      }
      if (end > i) {
        const double length = stretches_[end - 1].t_end - stretches_[i].t;
        if (length >= kStays && moves > 1) return stretches_[i].t;
        if (length > longest) {
          longest = length;
          t = stretches_[i].t;
        }
      }
      i = std::max(end, i + 1);
    }
    return t;
  }

  std::vector<Chapter> in_order() const {
    std::vector<Chapter> chapters;
    for (std::size_t i = 1; i < branch_.size(); ++i) {
      const auto id = static_cast<NodeId>(i);
      if (branch_[i] != id) continue;
      if (const auto t = beginning(id)) chapters.push_back({*t, title(id), id});
    }
    std::stable_sort(chapters.begin(), chapters.end(),
                     [](const Chapter& a, const Chapter& b) { return a.t < b.t; });
    std::vector<Chapter> kept;
    for (Chapter& c : chapters) {
      const bool begins_too_soon = !kept.empty() && c.t < kept.back().t + kShortestChapter;
      const bool ends_too_soon = c.t + kShortestChapter > lesson_.duration;
      if (!begins_too_soon && !ends_too_soon) kept.push_back(std::move(c));
    }
    if (kept.empty()) return kept;
    if (kept.front().t < kShortestChapter) {
      kept.front().t = 0;
    } else {
      kept.insert(kept.begin(), {0, "Introduction", 0});
    }
    return kept;
  }

  std::string numbered(NodeId id) const {
    const Node& n = lesson_.nodes[index(id)];
    const board::Position& before = lesson_.nodes[index(n.parent)].position;
    const bool white = before.side_to_move() == board::Color::kWhite;
    return fmt::format("{}{} {}", before.fullmove_number(), white ? "." : "...", n.san);
  }

  // The moves from the branch above to this one, and what the openings table calls the position.
  std::string title(NodeId id) const {
    std::vector<NodeId> line{id};
    for (NodeId up = lesson_.nodes[index(id)].parent; up > 0;
         up = lesson_.nodes[index(up)].parent) {
      line.insert(line.begin(), up);
      if (branch_[index(up)] == up) break;
    }
    std::string text = numbered(line.front());
    if (line.size() > kWholeLine) {
      text += " ... " + numbered(id);
    } else {
      for (std::size_t i = 1; i < line.size(); ++i) {
        const Node& n = lesson_.nodes[index(line[i])];
        const bool white = n.position.side_to_move() == board::Color::kBlack;
        text += ' ' + (white ? numbered(line[i]) : n.san);
      }
    }
    const auto name =
        opening_names().find(board::to_fen_placement(lesson_.nodes[index(id)].position));
    if (name != opening_names().end() && name->second != lesson_.start.name) {
      const std::string longer = fmt::format("{}: {}", text, name->second);
      if (longer.size() <= kLongestTitle) text = longer;
    }
    return text;
  }

  const Lesson& lesson_;
  const std::vector<Stretch> stretches_;
  std::vector<double> seconds_;  // talk about each node and all that follows it
  std::vector<std::vector<NodeId>> children_;
  std::vector<NodeId> branch_;  // the chapter's move each node belongs to; 0: none
};

}  // namespace

std::vector<Chapter> chapters_of(const Lesson& lesson) { return Divider(lesson).run(); }

}  // namespace plyscribe::lesson
