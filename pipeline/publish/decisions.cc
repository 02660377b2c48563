#include "publish/decisions.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <tuple>
#include <unordered_map>

#include "board/notation.h"

namespace plyscribe::publish {
namespace {

using lesson::Advice;
using lesson::Lesson;
using lesson::Node;
using lesson::NodeId;

std::size_t index(NodeId id) { return static_cast<std::size_t>(id); }

// What makes two positions one decision: placement, side, castling, and a pawn that can be taken
// in passing; not the clocks.
std::string key(const board::Position& p) {
  const std::string fen = board::to_fen(p);
  return fen.substr(0, fen.rfind(' ', fen.rfind(' ') - 1));
}

void add_advice(const Node& node, Answer& answer) {
  const auto add = [&](Advice advice) {
    switch (advice) {
      case Advice::kNone:
        break;
      case Advice::kRecommended:
        answer.recommended = true;
        break;
      case Advice::kPlayable:
        answer.playable = true;
        break;
      case Advice::kAvoided:
        answer.avoided = true;
        break;
      case Advice::kForCompleteness:
        answer.for_completeness = true;
        break;
    }
  };
  add(node.advice);
  for (const lesson::Counsel& counsel : node.counsels) add(counsel.advice);
}

// An answer that the lesson itself doesn't want played.
bool is_set_aside(const Answer& answer) {
  return !answer.recommended && (answer.avoided || answer.for_completeness);
}

Verdict verdict(const Decision& decision, bool on_the_way) {
  std::size_t recommended = 0, left = 0;
  for (const Answer& answer : decision.answers) {
    if (answer.recommended && answer.avoided) return Verdict::kConflict;
    recommended += answer.recommended ? 1 : 0;
    left += is_set_aside(answer) ? 0 : 1;
  }
  if (recommended > 0) return Verdict::kAdvised;
  if (left != 1) return Verdict::kOpen;
  return on_the_way ? Verdict::kShown : Verdict::kAside;
}

// Whether the lesson itself plays the answer, so that what follows is on its way.
bool is_played(const Decision& decision, const Answer& answer) {
  const bool any_recommended = std::any_of(decision.answers.begin(), decision.answers.end(),
                                           [](const Answer& a) { return a.recommended; });
  return any_recommended ? answer.recommended : !is_set_aside(answer);
}

}  // namespace

std::vector<Decision> decisions(const Lesson& lesson) {
  constexpr std::size_t kNone = static_cast<std::size_t>(-1);
  std::vector<Decision> out;
  std::vector<std::size_t> decision_at(lesson.nodes.size(), kNone);
  std::vector<std::size_t> answer_at(lesson.nodes.size(), kNone);
  std::unordered_map<std::string, std::size_t> by_position;

  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    const Node& node = lesson.nodes[i];
    const NodeId parent = node.parent;
    const board::Position& before = lesson.nodes[index(parent)].position;
    if (before.side_to_move() != lesson.side) continue;
    const auto [it, fresh] = by_position.emplace(key(before), out.size());
    if (fresh) out.emplace_back();
    Decision& decision = out[it->second];
    decision_at[i] = it->second;
    auto& places = decision.places;
    if (std::find(places.begin(), places.end(), parent) == places.end()) places.push_back(parent);

    auto answer = std::find_if(
        decision.answers.begin(), decision.answers.end(),
        [&](const Answer& a) { return lesson.nodes[index(a.nodes.front())].move == node.move; });
    if (answer == decision.answers.end()) {
      answer = decision.answers.insert(answer, Answer{});
    }
    answer->nodes.push_back(static_cast<NodeId>(i));
    answer_at[i] = static_cast<std::size_t>(answer - decision.answers.begin());
    add_advice(node, *answer);
  }

  // Parents come first, so a node's way is known before its children's.
  std::vector<bool> on_the_way(lesson.nodes.size(), true);
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    on_the_way[i] = on_the_way[index(lesson.nodes[i].parent)];
    if (decision_at[i] == kNone) continue;
    const Decision& decision = out[decision_at[i]];
    if (!is_played(decision, decision.answers[answer_at[i]])) on_the_way[i] = false;
  }
  for (Decision& decision : out) {
    decision.verdict =
        verdict(decision, std::any_of(decision.places.begin(), decision.places.end(),
                                      [&](NodeId id) { return on_the_way[index(id)]; }));
    for (Answer& answer : decision.answers) {
      std::sort(answer.nodes.begin(), answer.nodes.end(), [&](NodeId a, NodeId b) {
        return std::tuple(lesson.nodes[index(a)].t, a) < std::tuple(lesson.nodes[index(b)].t, b);
      });
    }
    std::stable_sort(
        decision.answers.begin(), decision.answers.end(),
        [](const Answer& a, const Answer& b) { return a.recommended > b.recommended; });
  }
  std::sort(out.begin(), out.end(), [](const Decision& a, const Decision& b) {
    return a.places.front() < b.places.front();
  });
  return out;
}

}  // namespace plyscribe::publish
