#include "review/queue.h"

#include <algorithm>

namespace plyscribe::review {
namespace {

// For each node, the times at which the moves of its subtree were first told, in order.
std::vector<std::vector<double>> times_below(const lesson::Lesson& lesson) {
  std::vector<std::vector<double>> below(lesson.nodes.size());
  for (std::size_t i = lesson.nodes.size(); i-- > 1;) {
    below[i].push_back(lesson.nodes[i].t);
    std::sort(below[i].begin(), below[i].end());
  }
  for (std::size_t i = lesson.nodes.size(); i-- > 1;) {
    auto& parent = below[static_cast<std::size_t>(lesson.nodes[i].parent)];
    const std::size_t middle = parent.size();
    parent.insert(parent.end(), below[i].begin(), below[i].end());
    std::inplace_merge(parent.begin(), parent.begin() + static_cast<std::ptrdiff_t>(middle),
                       parent.end());
  }
  return below;
}

}  // namespace

std::vector<Item> build_queue(const resolve::Decoding& d, const lesson::Lesson& lesson,
                              const Hearing& hearing) {
  std::vector<Item> queue;
  for (const resolve::UnheldPin& unheld : d.unheld) {
    Item item;
    item.kind = Item::Kind::kPin;
    item.pin = unheld.pin;
    item.effect = static_cast<double>(lesson.nodes.size());
    item.reason = "this correction cannot hold: " + unheld.why;
    queue.push_back(std::move(item));
  }
  if (d.start.confidence < lesson::kSureFrom) {
    Item item;
    item.kind = Item::Kind::kStart;
    item.below = lesson.nodes.size() - 1;
    item.effect = static_cast<double>(item.below) * (1 - d.start.confidence);
    item.reason = "the lesson may begin in another position";
    queue.push_back(std::move(item));
  }
  const auto below = times_below(lesson);
  for (std::size_t i = 0; i < d.mentions.size(); ++i) {
    const resolve::Mention& m = d.mentions[i];
    if (m.settled) continue;
    const bool placed = m.act == resolve::Act::kPlay || m.act == resolve::Act::kRevisit;
    if (placed && m.node <= 0) continue;
    if (m.act != resolve::Act::kLoose && m.confidence >= lesson::kSureFrom) continue;
    Item item;
    item.mention = i;
    item.below = 1;
    double unsure = 1;
    if (placed) {
      const auto& node = lesson.nodes[static_cast<std::size_t>(m.node)];
      double t = node.t;  // of this mention
      for (const lesson::Mention& said : node.mentions) {
        if (said.span.first_word == m.first_word) t = said.span.t;
      }
      const auto& times = below[static_cast<std::size_t>(m.node)];
      item.below = std::max<std::size_t>(
          1,
          static_cast<std::size_t>(times.end() - std::lower_bound(times.begin(), times.end(), t)));
    }
    if (m.act != resolve::Act::kLoose) unsure = 1 - m.confidence;
    item.effect = static_cast<double>(item.below) * unsure;
    item.reason = reason(m, d, hearing);
    queue.push_back(std::move(item));
  }
  std::stable_sort(queue.begin(), queue.end(),
                   [](const Item& a, const Item& b) { return a.effect > b.effect; });
  return queue;
}

}  // namespace plyscribe::review
