// What SubRip, WebVTT and TTML have in common: lines of text shown from one time to another.
//
// Input: cues as a reader found them. Output: words. Cues are put in the order of their starts;
// text that a cue shows again from the one before (rolling captions) is dropped:
//
//   0:00 so after c5                       so after c5
//   0:02 so after c5 / White takes    ->   White takes
//   0:04 White takes / and I think         and I think
#ifndef PLYSCRIBE_TRANSCRIPT_CUES_H_
#define PLYSCRIBE_TRANSCRIPT_CUES_H_

#include <string>
#include <string_view>
#include <vector>

#include "support/result.h"
#include "transcript/mapped_text.h"
#include "transcript/source.h"
#include "transcript/transcript.h"

namespace plyscribe::transcript {

// Words that come from this byte of the source's text or a later one start at this time.
struct TimeMark {
  std::uint32_t offset;
  double time;
};

struct Cue {
  double start = 0;
  double end = -1;     // before the start: not known
  std::size_t at = 0;  // place in the source, for messages
  std::vector<MappedText> lines;
  std::vector<TimeMark> marks;
};

// Errors: no words; starts that run backwards by more than ten seconds.
Result<Transcript> read_cues(const Source& source, std::vector<Cue> cues, Format format,
                             std::string title = {});

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_CUES_H_
