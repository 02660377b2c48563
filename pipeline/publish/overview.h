// The shape of a lesson on half a page: its branches, the most talked-about first to be let in.
//
//   4. Ng5                        0:39
//     4... d5 5. exd5             1:10
//       5... Na5 6. Bb5+ c6 ...   3:40
//       5... Nxd5 6. Nxf7 ...     1:50
//     4... Bc5                    0:58
//   4. d4                         0:40
//
// A branch begins where a move has a sibling and runs along the main line until it branches again;
// branches that were not let in are passed over.
#ifndef PLYSCRIBE_PUBLISH_OVERVIEW_H_
#define PLYSCRIBE_PUBLISH_OVERVIEW_H_

#include <cstddef>
#include <vector>

#include "lesson/lesson.h"

namespace plyscribe::publish {

struct Branch {
  std::size_t depth = 0;
  std::vector<lesson::NodeId> moves;  // never empty
};

struct Overview {
  std::vector<Branch> branches;  // in the order of the walk, the main line first at each branching
  std::size_t left_out = 0;
};

Overview overview(const lesson::Lesson& lesson, std::size_t most);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_OVERVIEW_H_
