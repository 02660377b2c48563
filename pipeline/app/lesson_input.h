// What the commands that decode a lesson share: the options that say what is decoded and how.
//
//   LESSON [--start NAME|MOVES|FEN] [--side white|black] [--pins FILE] [--format FORMAT] [-q]
#ifndef PLYSCRIBE_APP_LESSON_INPUT_H_
#define PLYSCRIBE_APP_LESSON_INPUT_H_

#include <string>

#include "resolve/decode.h"
#include "support/result.h"
#include "transcript/transcript.h"

namespace CLI {
class App;
}

namespace plyscribe::app {

struct LessonOptions {
  std::string lesson, start, side, pins, format;
  bool quiet = false;
};

void add_lesson_options(CLI::App& command, LessonOptions& options);

struct LessonInput {
  std::string bytes;  // of the transcript's file
  transcript::Transcript transcript;
  resolve::DecodeOptions decoding;  // the command line goes before the pins
};

// Errors: one line, beginning with the file or the option.
Result<LessonInput> read_lesson(const LessonOptions& options);

// "reading lesson.vtt", for Progress.
std::string work_on(const std::string& lesson);

// A decoder's message doesn't know the file; one about an option begins with the option.
Error located(const LessonOptions& options, const Error& error);

// One line on standard error for each.
void say_unheld(const LessonOptions& options, const resolve::Decoding& decoding);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_LESSON_INPUT_H_
