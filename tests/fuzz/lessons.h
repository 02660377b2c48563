// Lessons made of bytes, and what holds of every lesson.
#ifndef PLYSCRIBE_TESTS_FUZZ_LESSONS_H_
#define PLYSCRIBE_TESTS_FUZZ_LESSONS_H_

#include <string_view>

#include "lesson/lesson.h"

namespace plyscribe::fuzz {

// Every choice is a byte's: where a move is added, which of the legal ones, what is said of it. The
// rest of the bytes are the texts.
lesson::Lesson lesson_from(std::string_view bytes);

// Aborts unless every move is legal, every position follows, and every number is in its range.
void expect_sound(const lesson::Lesson& lesson);

// Aborts unless the game file, read again, has the lesson's tree.
void expect_reads_back(const lesson::Lesson& lesson, std::string_view pgn);

}  // namespace plyscribe::fuzz

#endif  // PLYSCRIBE_TESTS_FUZZ_LESSONS_H_
