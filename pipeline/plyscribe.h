// The library in one header: from the bytes of a transcript to what is published of the lesson.
//
//   Result<transcript::Transcript> t = transcript::read_transcript(bytes, "lesson.vtt");
//   Result<resolve::Decoding> d = resolve::decode(*t, {});
//   lesson::Lesson lesson = lesson::build_lesson(*d, *t);
//   std::string pgn = publish::write_pgn(lesson, {});
//
// Everything is in namespace plyscribe. Nothing touches the disk or the network; the same bytes
// give the same result. Errors come as one line, in a Result. Read on in resolve/decoding.h and
// lesson/lesson.h; examples/tree is a whole program.
#ifndef PLYSCRIBE_PLYSCRIBE_H_
#define PLYSCRIBE_PLYSCRIBE_H_

#include "lesson/lesson.h"
#include "lesson/lesson_json.h"
#include "lesson/pins.h"
#include "publish/kind.h"
#include "publish/outline.h"
#include "publish/pgn.h"
#include "resolve/decode.h"
#include "transcript/transcript.h"

#endif  // PLYSCRIBE_PLYSCRIBE_H_
