#include "publish/excerpt.h"

#include <cstddef>
#include <cstdint>

namespace plyscribe::publish {
namespace {

enum class Part : std::uint8_t { kNone, kLeadsThere, kListed };

}  // namespace

lesson::Lesson excerpt(const lesson::Lesson& lesson, const std::vector<lesson::NodeId>& moves) {
  const auto index = [](lesson::NodeId id) { return static_cast<std::size_t>(id); };
  std::vector<Part> part(lesson.nodes.size(), Part::kNone);
  part[0] = Part::kLeadsThere;
  for (const lesson::NodeId id : moves) part[index(id)] = Part::kListed;
  for (std::size_t i = lesson.nodes.size(); i-- > 1;) {
    Part& parent = part[index(lesson.nodes[i].parent)];
    if (part[i] != Part::kNone && parent == Part::kNone) parent = Part::kLeadsThere;
  }

  lesson::Lesson out;
  out.title = lesson.title;
  out.media = lesson.media;
  out.duration = lesson.duration;
  out.side = lesson.side;
  out.start = lesson.start;
  std::vector<lesson::NodeId> moved(lesson.nodes.size(), -1);
  for (std::size_t i = 0; i < lesson.nodes.size(); ++i) {
    if (part[i] == Part::kNone) continue;
    moved[i] = static_cast<lesson::NodeId>(out.nodes.size());
    out.nodes.push_back(lesson.nodes[i]);
    lesson::Node& n = out.nodes.back();
    if (i > 0) n.parent = moved[index(n.parent)];
    if (part[i] == Part::kLeadsThere) {
      n.judgements.clear();
      n.counsels.clear();
      n.remarks.clear();
      n.advice = lesson::Advice::kNone;
    }
  }
  for (const lesson::Idea& idea : lesson.ideas) {
    if (part[index(idea.node)] != Part::kListed) continue;
    out.ideas.push_back(idea);
    out.ideas.back().node = moved[index(idea.node)];
  }
  return out;
}

}  // namespace plyscribe::publish
