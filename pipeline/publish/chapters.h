// The chapters of the lesson for a player of the recording.
//
//   chapters.vtt   a track of kind "chapters" (W3C, WebVTT, section 1.1): one cue from each
//   chapter's
//                  start to the next
//   chapters.txt   0:00 Introduction
//                  1:10 4. Ng5
//
// The first begins at 0:00, each is ten seconds long or more and its title has at most 100
// characters (lesson/chapters.h); a lesson without chapters is one, under its own title.
#ifndef PLYSCRIBE_PUBLISH_CHAPTERS_H_
#define PLYSCRIBE_PUBLISH_CHAPTERS_H_

#include <string>

#include "lesson/lesson.h"

namespace plyscribe::publish {

struct Kind;
extern const Kind kChaptersKind;

std::string write_chapter_track(const lesson::Lesson& lesson);
std::string write_chapter_list(const lesson::Lesson& lesson);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_CHAPTERS_H_
