// Judgements in words, by the numbers of the PGN standard of 1994, section 10, and advice.
#ifndef PLYSCRIBE_PUBLISH_NAG_WORDS_H_
#define PLYSCRIBE_PUBLISH_NAG_WORDS_H_

#include <string>
#include <string_view>

#include "lesson/lesson.h"

namespace plyscribe::publish {

// 16 -> "White is better"; of a number that has no words here, "$200".
std::string nag_words(int nag);

// "to be avoided"; of none, nothing.
std::string_view advice_words(lesson::Advice advice);

// Whether it judges the position reached, not the move that reached it.
constexpr bool judges_position(int nag) { return nag >= 10 && nag <= 135; }

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_NAG_WORDS_H_
