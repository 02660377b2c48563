// The lesson cut into its chapters, each with the part of the tree that it is about.
//
//   chapter 1, node 1           1 e4 -- 2 e5 -- 3 Nf3     a move belongs to the last chapter's node
//   chapter 2, node 4                \- 4 c5 -- 5 d4      on its way: 1-3 to the first, 4-5 to the
//                                                         second
//
// Every move but the start is in one section. Moves outside all chapters' nodes go to the chapter
// without a node, else to a section without title in front. A root is a move whose parent is in
// another section, or the start. A section without moves is left out.
#ifndef PLYSCRIBE_PUBLISH_SECTIONS_H_
#define PLYSCRIBE_PUBLISH_SECTIONS_H_

#include <cstddef>
#include <string>
#include <vector>

#include "lesson/lesson.h"
#include "publish/line_order.h"

namespace plyscribe::publish {

// Moves to be set in one run. A paragraph ends where the tree branches: the variations follow, each
// a step further in, and then the line goes on in a paragraph of its own.
struct Paragraph {
  std::size_t depth = 0;
  std::vector<lesson::NodeId> moves;  // never empty
};

struct Section {
  std::string title;
  double t = 0;
  std::vector<lesson::NodeId> roots;
  std::vector<lesson::NodeId> moves;  // all of them, in the order of the nodes
};

std::vector<Section> sections(const lesson::Lesson& lesson);

// The lines below and with `root`, as far as they belong to the section.
std::vector<Paragraph> paragraphs(const lesson::Lesson& lesson, const Section& section,
                                  lesson::NodeId root);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_SECTIONS_H_
