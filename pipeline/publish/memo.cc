#include "publish/memo.h"

#include <algorithm>
#include <cstddef>
#include <unordered_map>

#include "board/notation.h"
#include "publish/decisions.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::Node;
using lesson::NodeId;

constexpr int kForced = 7, kOnlyMove = 8;  // PGN standard, section 10

const Node& at(const Lesson& lesson, NodeId id) {
  return lesson.nodes[static_cast<std::size_t>(id)];
}

// The words on a node that say the advice, or that judge it the only move.
const lesson::Span* words_of(const Node& node) {
  for (const lesson::Counsel& counsel : node.counsels) {
    if (counsel.advice == node.advice) return &counsel.span;
  }
  for (const lesson::Judgement& judgement : node.judgements) {
    if (judgement.nag == kForced || judgement.nag == kOnlyMove) return &judgement.span;
  }
  return nullptr;
}

bool is_only_move(const Lesson& lesson, const Answer& answer) {
  return std::any_of(answer.nodes.begin(), answer.nodes.end(), [&](NodeId id) {
    const auto nags = lesson::nags_of(at(lesson, id));
    return std::any_of(nags.begin(), nags.end(),
                       [](int nag) { return nag == kForced || nag == kOnlyMove; });
  });
}

}  // namespace

std::vector<Rule> rules(const Lesson& lesson) {
  std::vector<Rule> out;
  for (const Decision& decision : decisions(lesson)) {
    if (decision.verdict == Verdict::kConflict) continue;
    Rule rule;
    rule.at = decision.places.front();
    for (const Answer& answer : decision.answers) {
      if (answer.recommended || (!answer.avoided && is_only_move(lesson, answer))) {
        rule.play.push_back(answer.nodes.front());
      } else if (answer.avoided) {
        rule.avoid.push_back(answer.nodes.front());
      }
    }
    if (rule.play.empty() && rule.avoid.empty()) continue;
    const Node& chosen = at(lesson, rule.play.empty() ? rule.avoid.front() : rule.play.front());
    rule.t = chosen.t;
    if (const lesson::Span* span = words_of(chosen)) {
      rule.t = span->t;
      rule.words = span->heard;
    }
    out.push_back(std::move(rule));
  }
  return out;
}

std::vector<Meeting> meetings(const Lesson& lesson) {
  std::vector<Meeting> out;
  std::unordered_map<std::string, NodeId> first;
  for (std::size_t i = 0; i < lesson.nodes.size(); ++i) {
    const Node& node = lesson.nodes[i];
    const auto id = static_cast<NodeId>(i);
    const auto [it, fresh] = first.emplace(
        board::to_fen_placement(node.position) + std::to_string(node.position.en_passant()), id);
    if (fresh || node.parent < 0) continue;
    const Node& other = at(lesson, it->second);
    // Two positions before it that are one as well, with the same move: they met earlier.
    const bool met_before =
        other.parent >= 0 && other.move == node.move &&
        at(lesson, other.parent).position.key() == at(lesson, node.parent).position.key();
    if (met_before) continue;
    out.push_back(node.t < other.t ? Meeting{id, it->second} : Meeting{it->second, id});
  }
  return out;
}

}  // namespace plyscribe::publish
