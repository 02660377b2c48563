// The kinds of thing that go out with a lesson, and what each of them is made from.
//
//   for (const Kind& kind : kinds()) ...                  all, in the order of their listing
//   find_kind("pgn")->write({.lesson = lesson})           its files, as bytes
//
// A kind is one file of this folder: it defines a constant such as kPgnKind and is entered in
// kinds.cc. Writing is deterministic and touches no disk.
#ifndef PLYSCRIBE_PUBLISH_KIND_H_
#define PLYSCRIBE_PUBLISH_KIND_H_

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "lesson/lesson.h"
#include "publish/link.h"
#include "publish/notation.h"
#include "support/result.h"
#include "transcript/transcript.h"

namespace plyscribe::publish {

// The transcript that the lesson was made from, as it came. The owner keeps it alive.
struct Original {
  const transcript::Transcript& transcript;
  std::string_view bytes;
};

// Everything that a kind may need. The owner keeps it alive while it is written.
struct Edition {
  const lesson::Lesson& lesson;
  Link link = {};                      // from a time to an address
  Notation notation = {};              // of the moves in captions
  const Original* original = nullptr;  // where it is not at hand
};

// A file to be written.
struct Output {
  std::string name;  // in the lesson's folder; "a/b" stands in a folder of its own
  std::string bytes;
};

// A kind of output; all are listed by kinds().
struct Kind {
  std::string_view name;   // "pgn", as the command line takes it
  std::string_view files;  // "lesson.pgn", for the reader of the help
  std::string_view about;  // half a line
  bool needs_original;     // without one, it is left out unless it was asked for by name
  Result<std::vector<Output>> (*write)(const Edition& edition);
};

std::span<const Kind* const> kinds();
const Kind* find_kind(std::string_view name);  // null if there is none

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_KIND_H_
