// One lesson under review: its words, the corrections made so far, and what the decoder makes of
// both.
//
// Input: a transcript and the pins that its file holds. Output: the page's state after each step.
// A step either holds altogether (decoded anew, saved, answered) or leaves everything as it was:
// what the page shows as done is in the file. Each step names the revision it was made on, so that
// a page which is behind (a second window) cannot undo unseen work. One step at a time; safe to
// call from several threads.
#ifndef PLYSCRIBE_REVIEW_SESSION_H_
#define PLYSCRIBE_REVIEW_SESSION_H_

#include <cstddef>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lesson/lesson.h"
#include "lesson/pins.h"
#include "resolve/decoder.h"
#include "review/changes.h"
#include "review/page_data.h"
#include "review/reason.h"
#include "support/result.h"
#include "transcript/transcript.h"

namespace plyscribe::review {

// Writes the pins file, all or nothing; the failure, if there was one.
using Save = std::function<std::optional<Error>(std::string_view bytes)>;

// status as in HTTP: 200, 409 behind, 422 not possible, 500 not saved. body: the new state as JSON,
// or { "error": text, "state": the state as it is }.
struct Answer {
  int status = 200;
  std::string body;
  double milliseconds = 0;  // that decoding took
};

class Session {
 public:
  // options: start and side as the command line gives them; they go before the pins'.
  static Result<std::unique_ptr<Session>> open(transcript::Transcript transcript,
                                               resolve::DecodeOptions options, lesson::Pins pins,
                                               Save save);

  std::string page(const PageData& page);

  // json: a whole pins file, the one that is to hold from now on.
  Answer set_pins(std::size_t revision, std::string_view json);
  Answer undo(std::size_t revision);
  Answer redo(std::size_t revision);

 private:
  // A decoding and what is shown of it; never half made.
  struct Reading {
    lesson::Pins pins;
    resolve::Decoding decoding;
    lesson::Lesson lesson;
    std::vector<Item> queue;
    double milliseconds = 0;
  };

  Session(transcript::Transcript transcript, resolve::DecodeOptions options, Save save);
  Result<Reading> read(lesson::Pins pins);
  Answer step(lesson::Pins pins, std::vector<lesson::Pins>* from, std::vector<lesson::Pins>* to);
  Answer refuse(int status, std::string_view error) const;
  std::string state() const;

  const transcript::Transcript transcript_;
  const resolve::DecodeOptions options_;
  const Save save_;
  mutable std::mutex mutex_;  // guards what follows
  resolve::Decoder decoder_;
  const Hearing hearing_;
  Reading now_;
  std::optional<Changes> changes_;
  std::vector<lesson::Pins> undo_, redo_;
  std::size_t revision_ = 0;
};

}  // namespace plyscribe::review

#endif  // PLYSCRIBE_REVIEW_SESSION_H_
