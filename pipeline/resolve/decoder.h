// One lesson, decoded again and again while a person corrects it.
//
//   Decoder decoder(transcript);
//   decoder.decode({});                                       some seconds for half an hour
//   decoder.decode({.pins = {{40, 43, Pin::Kind::kNoMove}}})  only from word 40 on
//
// Keeps what does not depend on the pins: the lattice, the prepared lesson, every line of moves
// that was looked at, and the search itself with places to restart at. A decode gives the same
// result as a fresh one with the same options, whatever was decoded before it. Owns all it needs;
// the transcript may go. Not thread-safe.
#ifndef PLYSCRIBE_RESOLVE_DECODER_H_
#define PLYSCRIBE_RESOLVE_DECODER_H_

#include <memory>
#include <string>
#include <vector>

#include "resolve/decode.h"
#include "resolve/search.h"
#include "resolve/start.h"

namespace plyscribe::resolve {

class Decoder {
 public:
  // `once`: no other decode will follow, so nothing is kept for it.
  explicit Decoder(const transcript::Transcript& transcript, bool once = false);
  Decoder(const transcript::Transcript& transcript, const Model& model, bool once = false);
  Decoder(const Decoder&) = delete;
  Decoder& operator=(const Decoder&) = delete;

  Result<Decoding> decode(const DecodeOptions& options);

  // What the last decode searched; for explaining it. Null before.
  Search* search() { return search_.get(); }
  const Lesson& lesson() const { return lesson_; }
  const Model& model() const { return model_; }
  LineTree& lines() { return lines_; }

 private:
  void begin(const DecodeOptions& options);
  SearchConfig config() const;

  const Model& model_;
  bool once_;
  std::string title_;
  Lesson lesson_;
  LineTree lines_;
  Trust trust_;                       // before a search has looked
  std::optional<board::Color> told_;  // side, as far as the words say it
  std::vector<StartOption> inferred_, starts_;
  std::unordered_map<LineId, std::size_t> start_of_;  // root line: index into starts_
  double start_share_ = 1;                            // the best one's, of all that were weighed
  std::unique_ptr<Search> search_;
  std::string start_;  // the options that search_ was made for
  std::optional<board::Color> side_;
};

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_DECODER_H_
