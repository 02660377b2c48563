#include "publish/line_order.h"

#include <algorithm>
#include <cstddef>
#include <tuple>

namespace plyscribe::publish {
namespace {

using lesson::Advice;
using lesson::Lesson;
using lesson::NodeId;

std::size_t index(NodeId id) { return static_cast<std::size_t>(id); }

// Smaller goes first.
int rank(Advice advice) {
  switch (advice) {
    case Advice::kRecommended:
      return 0;
    case Advice::kNone:
    case Advice::kPlayable:
      return 1;
    case Advice::kForCompleteness:
      return 2;
    case Advice::kAvoided:
      return 3;
  }
  return 1;
}

}  // namespace

std::vector<double> dwell_seconds(const Lesson& lesson) {
  struct Event {
    double t;
    NodeId node;
  };
  std::vector<Event> events;
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    for (const lesson::Mention& m : lesson.nodes[i].mentions) {
      events.push_back({m.span.t, static_cast<NodeId>(i)});
    }
  }
  for (const lesson::Idea& idea : lesson.ideas) events.push_back({idea.span.t, idea.node});
  std::stable_sort(events.begin(), events.end(),
                   [](const Event& a, const Event& b) { return a.t < b.t; });

  std::vector<double> seconds(lesson.nodes.size(), 0);
  for (std::size_t i = 0; i < events.size(); ++i) {
    const double until = i + 1 < events.size() ? events[i + 1].t : lesson.duration;
    seconds[index(events[i].node)] += std::max(0.0, until - events[i].t);
  }
  return seconds;
}

std::vector<double> talk_seconds(const Lesson& lesson) {
  std::vector<double> seconds = dwell_seconds(lesson);
  for (std::size_t i = lesson.nodes.size(); i-- > 1;) {
    seconds[index(lesson.nodes[i].parent)] += seconds[i];
  }
  return seconds;
}

Children ordered_children(const Lesson& lesson) {
  Children children(lesson.nodes.size());
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    children[index(lesson.nodes[i].parent)].push_back(static_cast<NodeId>(i));
  }
  const std::vector<double> seconds = talk_seconds(lesson);
  for (auto& siblings : children) {
    if (siblings.size() < 2) continue;
    std::sort(siblings.begin(), siblings.end(), [&](NodeId a, NodeId b) {
      return std::tuple(lesson.nodes[index(a)].t, a) < std::tuple(lesson.nodes[index(b)].t, b);
    });
    const auto main = std::min_element(siblings.begin(), siblings.end(), [&](NodeId a, NodeId b) {
      return std::tuple(rank(lesson.nodes[index(a)].advice), -seconds[index(a)]) <
             std::tuple(rank(lesson.nodes[index(b)].advice), -seconds[index(b)]);
    });
    std::rotate(siblings.begin(), main, main + 1);
  }
  return children;
}

std::vector<Step> walk(const Lesson& lesson) { return walk(ordered_children(lesson), 0); }

std::vector<Step> walk(const Children& children, NodeId from) {
  struct Task {
    bool goes_on;  // write what follows the node; else write the step itself
    Step step;
  };
  std::vector<Step> steps;
  std::vector<Task> tasks{{true, {Step::Kind::kMove, from}}};
  while (!tasks.empty()) {
    const Task task = tasks.back();
    tasks.pop_back();
    if (!task.goes_on) {
      steps.push_back(task.step);
      continue;
    }
    const auto& siblings = children[index(task.step.node)];
    if (siblings.empty()) continue;
    const NodeId main = siblings.front();
    tasks.push_back({true, {Step::Kind::kMove, main}});
    for (std::size_t i = siblings.size(); i-- > 1;) {  // last in, first out
      const NodeId other = siblings[i];
      tasks.push_back({false, {Step::Kind::kClose, other}});
      tasks.push_back({true, {Step::Kind::kMove, other}});
      tasks.push_back({false, {Step::Kind::kMove, other}});
      tasks.push_back({false, {Step::Kind::kOpen, other}});
    }
    tasks.push_back({false, {Step::Kind::kMove, main}});
  }
  return steps;
}

}  // namespace plyscribe::publish
