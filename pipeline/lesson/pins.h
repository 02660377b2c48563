// Pins in a file: a person's corrections, kept beside the lesson. Schema "plyscribe.pins/1":
//
//   { "schema": "plyscribe.pins/1", "start": "Open Catalan", "side": "white",
//     "pins": [ { "first_word": 40, "last_word": 43, "t": 12.4, "heard": "knight to f3",
//                 "is": "move", "san": "Nf3" },
//               { ..., "is": "line", "line": ["e4", "e5", "Nf3"] },
//               { ..., "is": "no move" } ] }
//
// start and side mean what --start and --side mean, the three kinds what resolve/pin.h says. All
// but the schema may be missing. Words are [first_word, last_word) of the transcript; the time and
// the words that were heard there tell whether a pin belongs to the transcript it is used on.
// A key that is not known is an error: a correction must not be lost in silence.
// Writing is deterministic; what was written reads back the same.
#ifndef PLYSCRIBE_LESSON_PINS_H_
#define PLYSCRIBE_LESSON_PINS_H_

#include <string>
#include <string_view>
#include <vector>

#include "resolve/pin.h"
#include "support/result.h"
#include "transcript/transcript.h"

namespace plyscribe::lesson {

// A correction: what these words are.
struct PinnedWords {
  resolve::Pin pin;
  double t = 0;       // seconds, whole hundredths
  std::string heard;  // the words as the recogniser wrote them, one blank between two
};

// All corrections of a lesson.
struct Pins {
  std::string start;  // empty: not pinned
  std::string side;   // "white", "black" or empty
  std::vector<PinnedWords> words;
};

// Errors: "NAME:PLACE: expected ...", PLACE a line or the path of a value ("pins[2].san").
Result<Pins> read_pins(std::string_view json, std::string_view name);
std::string write_pins(const Pins& pins);

// A pin with the time and words of this transcript. Its words must be words of the transcript.
PinnedWords pinned_words(const resolve::Pin& pin, const transcript::Transcript& transcript);

// The pins as the decoder takes them, in order; the error of the first whose words are not what
// this transcript has there: "NAME:pins[2]: expected ...".
Result<std::vector<resolve::Pin>> pins_for(const Pins& pins,
                                           const transcript::Transcript& transcript,
                                           std::string_view name);

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_PINS_H_
