// The transcript as it came, with the moves written right: same format, every other byte untouched.
//
//   00:39.800 --> 00:42.000                      00:39.800 --> 00:42.000
//   So, night g five. It hits f7.         ->     So, Ng5. It hits f7.
//
// Written are the moves of the tree that are sure, where the words do nothing but name them
// (naming.h), and every move, planned ones too, that the words spell. The others stay as they were
// heard: "we castle", "the rook goes back", and what is unsure. Where the words of a move are parted
// by a line or a caption, the move stands where they end, and what came before is left out, unless
// nothing else stands on that line; what follows a sentence's end on a line of its own stays as it
// was heard ("bishop takes h7!" and "Check, and ..."). In word lists (CTM, JSON) the last word holds
// the move; those before it are the format's empty word.
//
// Errors: a transcript that is not the lesson's; figurines in a file whose encoding lacks them.
#ifndef PLYSCRIBE_PUBLISH_CAPTIONS_H_
#define PLYSCRIBE_PUBLISH_CAPTIONS_H_

#include <string>

#include "lesson/lesson.h"
#include "publish/kind.h"
#include "publish/notation.h"
#include "support/result.h"

namespace plyscribe::publish {

extern const Kind kCaptionsKind;

Result<std::string> write_captions(const lesson::Lesson& lesson, const Original& original,
                                   const Notation& notation);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_CAPTIONS_H_
