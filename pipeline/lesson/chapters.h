// The parts of a lesson: main branches of its tree, and the times from which they are spoken of.
//
//      0:00 Introduction          the start of the tree is talked about
//      1:10 4. Ng5                  0 --- Ng5 --- d5 --- exd5 --- Na5 ...
//      3:58 4. Ng5 ... 5... Na5      |                      \---- Nxd5 ...   too short for a
//      chapter
//     10:35 4. d4                    \--- d4 ...
//
// A branch becomes a chapter if it is talked about long enough, and is divided again if it takes a
// large part of the lesson. It begins where the talk first stays with it: naming it in a list of
// what is to come is no beginning. The first chapter begins at 0, each lasts ten seconds or more.
//
// Cost: linear in mentions, times the depth of the tree.
#ifndef PLYSCRIBE_LESSON_CHAPTERS_H_
#define PLYSCRIBE_LESSON_CHAPTERS_H_

#include <vector>

#include "lesson/lesson.h"

namespace plyscribe::lesson {

constexpr double kShortestChapter = 10;     // seconds
constexpr std::size_t kLongestTitle = 100;  // characters

// In time order; none in a lesson that is too short to have any.
std::vector<Chapter> chapters_of(const Lesson& lesson);

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_CHAPTERS_H_
