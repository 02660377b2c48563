// The whole stage in one call: from a transcript to the tree that was meant.
//
//   Result<Decoding> d = decode(transcript, {.start = "Vienna Game"});
//
// Infers the start and the side where they are not given. Errors: a start that cannot be understood
// ("--start: ..."), a lesson in which no move could be placed. Deterministic. Cost: about four
// seconds for half an hour of talk.
#ifndef PLYSCRIBE_RESOLVE_DECODE_H_
#define PLYSCRIBE_RESOLVE_DECODE_H_

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "board/position.h"
#include "resolve/decoding.h"
#include "resolve/pin.h"
#include "support/result.h"
#include "transcript/transcript.h"

namespace plyscribe::resolve {

// What is known about a lesson beforehand; all of it may be left out.
struct DecodeOptions {
  std::string start;                 // an opening's name, moves, or FEN; empty: inferred
  std::optional<board::Color> side;  // whom the lesson is for; empty: inferred
  std::vector<Pin> pins;             // corrections of single mentions
  std::function<void(double)> progress = {};  // told now and then which share of the work is done
};

Result<Decoding> decode(const transcript::Transcript& transcript, const DecodeOptions& options);

class Model;
// The same with another model than the one shipped, for scoring what a lesson did not train.
Result<Decoding> decode(const transcript::Transcript& transcript, const DecodeOptions& options,
                        const Model& model);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_DECODE_H_
