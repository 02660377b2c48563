// The text of a SubRip or WebVTT cue without its markup.
#ifndef PLYSCRIBE_TRANSCRIPT_CAPTION_MARKUP_H_
#define PLYSCRIBE_TRANSCRIPT_CAPTION_MARKUP_H_

#include <string_view>

#include "transcript/cues.h"
#include "transcript/mapped_text.h"

namespace plyscribe::transcript {

// Adds text[begin, end) to the cue's lines. Tags ("<i>", "<v Anna>", "</c>") and style codes
// ("{\an8}") go, ruby annotations with them; time tags ("<00:01.000>") become marks; character
// references become characters.
void add_marked_up(std::string_view text, std::size_t begin, std::size_t end, Cue& cue);

// Reads a reference such as "&amp;", "&#9816;" or "&#x2658;" at text[at], appends what it stands
// for and returns its length. 0, and nothing appended, where there is none that is known.
std::size_t append_reference(std::string_view text, std::size_t at, std::size_t end,
                             MappedText& out);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_CAPTION_MARKUP_H_
