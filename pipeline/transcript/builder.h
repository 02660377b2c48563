// Gathers captions and words, then gives each word its time, its sentence and its bytes.
//
//   Builder b(source);
//   b.caption(3, 37);            // from 0:03 to 0:37
//   b.text(mapped);              // words without times of their own
//   b.caption(37, Builder::kOpen);
//   b.word(mapped, 37.2, 37.5, 0.9, {});
//   return b.finish(Format::kJson);
//
// Captions come in the order of their starts. A span is a stretch of words between two known times;
// a caption has one or more. Inside a span words share the time by length, see finish().
#ifndef PLYSCRIBE_TRANSCRIPT_BUILDER_H_
#define PLYSCRIBE_TRANSCRIPT_BUILDER_H_

#include <span>
#include <string>
#include <vector>

#include "support/result.h"
#include "transcript/mapped_text.h"
#include "transcript/source.h"
#include "transcript/transcript.h"
#include "transcript/words.h"

namespace plyscribe::transcript {

class Builder {
 public:
  static constexpr double kOpen = -1;  // an end that is not known: the next caption's start

  explicit Builder(const Source& source) : source_(source) {}

  void caption(double start, double end);

  // The next words start here, inside the open caption. Where only one word comes before the next
  // span, this is the word's own time.
  void span(double start);
  void text(const MappedText& text) { tokens(split_words(text)); }
  void tokens(std::vector<Token> tokens);

  // A word with its own time; the end may be kOpen. Text of several words shares the time, and is
  // not counted as timed.
  void word(const MappedText& text, double start, double end, double confidence,
            std::vector<Alternative> alternatives);

  // The same in a file that has no captions: they are cut at silences and ends of sentences.
  void word_in_flow(const MappedText& text, double start, double end, double confidence,
                    std::vector<Alternative> alternatives);

  std::size_t word_count() const { return out_.words.size(); }
  std::span<Word> words_from(std::size_t first) { return std::span(out_.words).subspan(first); }

  void title(std::string title) { out_.title = std::move(title); }
  void duration(double seconds) { out_.duration = seconds; }

  // pause: seconds of silence at the end of a caption whose end was open.
  // Errors: no words, more than kMostWords.
  Result<Transcript> finish(Format format, double pause = 0);

 private:
  struct Span {
    double start, end;
    std::size_t first, last;  // words
    std::size_t caption;
    bool exact = false;   // a word's own time
    bool marked = false;  // made by span()
  };

  Span& open_span(double start, double end);
  void add(Token token);
  double pace(double pause) const;
  void end_flow();
  void close_captions(double pace, double pause);
  void share_times(double pace, double pause);
  void mend_order();

  const Source& source_;
  Transcript out_;
  std::vector<Span> spans_;
  std::vector<bool> open_end_;  // by caption
  double flow_end_ = 0;         // of the last word in flow
  bool in_flow_ = false;
  bool too_many_ = false;
  std::string lead_;  // opening marks that wait for their word
};

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_BUILDER_H_
