// One reader per format, and the telling of formats. Inside this folder only.
//
// Each reader takes a decoded source and gives the words, or one line that says what was expected.
#ifndef PLYSCRIBE_TRANSCRIPT_READERS_H_
#define PLYSCRIBE_TRANSCRIPT_READERS_H_

#include "support/result.h"
#include "transcript/source.h"
#include "transcript/transcript.h"

namespace plyscribe::transcript {

Format detect_format(const Source& source);

Result<Transcript> read_stamped_text(const Source& source);
Result<Transcript> read_subrip(const Source& source);
Result<Transcript> read_webvtt(const Source& source);
Result<Transcript> read_ttml(const Source& source);
Result<Transcript> read_ctm(const Source& source);
Result<Transcript> read_json_words(const Source& source);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_READERS_H_
