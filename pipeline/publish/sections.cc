#include "publish/sections.h"

#include <algorithm>
#include <tuple>

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::NodeId;

std::size_t index(NodeId id) { return static_cast<std::size_t>(id); }

}  // namespace

std::vector<Section> sections(const Lesson& lesson) {
  std::vector<Section> out(1);  // the one without title
  constexpr std::size_t kNone = 0;
  std::vector<std::size_t> home(lesson.nodes.size(), kNone), opens(lesson.nodes.size(), kNone);
  for (const lesson::Chapter& chapter : lesson.chapters) {
    std::size_t& opened = opens[index(chapter.node)];
    if (opened == kNone) opened = out.size();  // the first chapter of a node has its moves
    out.push_back({chapter.title, chapter.t, {}, {}});
  }
  home[0] = opens[0];
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    const std::size_t parent = index(lesson.nodes[i].parent);
    home[i] = opens[i] != kNone ? opens[i] : home[parent];
    out[home[i]].moves.push_back(static_cast<NodeId>(i));
    if (parent == 0 || home[i] != home[parent])
      out[home[i]].roots.push_back(static_cast<NodeId>(i));
  }
  for (Section& section : out) {
    std::sort(section.roots.begin(), section.roots.end(), [&](NodeId a, NodeId b) {
      return std::tuple(lesson.nodes[index(a)].t, a) < std::tuple(lesson.nodes[index(b)].t, b);
    });
  }
  std::erase_if(out, [](const Section& section) { return section.moves.empty(); });
  return out;
}

std::vector<Paragraph> paragraphs(const Lesson& lesson, const Section& section, NodeId root) {
  std::vector<bool> inside(lesson.nodes.size(), false);
  for (const NodeId id : section.moves) inside[index(id)] = true;
  Children children = ordered_children(lesson);
  for (auto& siblings : children) {
    std::erase_if(siblings, [&](NodeId id) { return !inside[index(id)]; });
  }

  std::vector<Paragraph> out{{0, {root}}};
  std::size_t depth = 0;
  bool open = true;  // the last paragraph takes more moves
  for (const Step& step : walk(children, root)) {
    switch (step.kind) {
      case Step::Kind::kMove:
        if (!open) out.push_back({depth, {}});
        open = true;
        out.back().moves.push_back(step.node);
        break;
      case Step::Kind::kOpen:
        ++depth;
        open = false;
        break;
      case Step::Kind::kClose:
        --depth;
        open = false;
        break;
    }
  }
  return out;
}

}  // namespace plyscribe::publish
