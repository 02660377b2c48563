// How much the program takes on: far beyond any lesson, and little enough that what is no lesson
// ends soon, in one line, before it fills the machine. README.md states them.
#ifndef PLYSCRIBE_SUPPORT_LIMITS_H_
#define PLYSCRIBE_SUPPORT_LIMITS_H_

#include <cstddef>

namespace plyscribe {

constexpr std::size_t kMostMegabytes = 32;
constexpr std::size_t kMostBytes = kMostMegabytes << 20;  // of a file that is read
constexpr std::size_t kMostWords = 40'000;  // of a transcript: four hours of talk
constexpr std::size_t kLongestWord = 64;    // bytes; what is longer is heard as talk, never as moves

}  // namespace plyscribe

#endif  // PLYSCRIBE_SUPPORT_LIMITS_H_
