// Reader of WebVTT captions (W3C, "WebVTT: The Web Video Text Tracks Format").
//
//   WEBVTT - The Caro-Kann
//
//   NOTE not spoken
//
//   intro
//   00:03.000 --> 00:05.500 align:start
//   <v Anna>So <00:03.400>after <00:03.900>c5
//
// Blocks are parted by blank lines. NOTE, STYLE and REGION blocks and those without "-->" are left
// out, as the standard has it; a time that cannot be read is an error here, where the standard
// drops the cue, since a transcript with a hole looks whole.
#include <algorithm>

#include "transcript/caption_markup.h"
#include "transcript/cue_timing.h"
#include "transcript/cues.h"
#include "transcript/readers.h"
#include "transcript/words.h"

namespace plyscribe::transcript {
namespace {

constexpr std::string_view kSignature = "WEBVTT";

// "WEBVTT - Title" on the first line.
std::string header_title(std::string_view s, LineSpan line, std::size_t signature) {
  std::size_t begin = signature + kSignature.size();
  while (begin < line.end && (s[begin] == ' ' || s[begin] == '\t' || s[begin] == '-')) ++begin;
  MappedText raw;
  raw.append_verbatim(s, begin, line.end);
  return std::string(trim_blanks(normal_form(raw).text));
}

}  // namespace

Result<Transcript> read_webvtt(const Source& source) {
  const std::string_view s = source.text();
  std::vector<Cue> cues;
  std::string title;
  std::size_t begin = std::min(s.find_first_not_of(" \t\r\n"), s.size());
  if (s.substr(begin).starts_with(kSignature)) {
    LineSpan line = line_at(s, begin);
    title = header_title(s, line, begin);
    do {  // the header runs to the first blank line, or to a cue that follows without one
      begin = line.next;
      line = line_at(s, std::min(begin, s.size()));
    } while (line.begin < s.size() && line.end > line.begin &&
             s.substr(line.begin, line.end - line.begin).find("-->") == std::string_view::npos);
  }

  bool at_block_start = true;  // else inside a block that is not a cue, or inside a cue's text
  bool skipping = false;       // a NOTE, STYLE or REGION block
  bool in_cue = false;
  while (begin < s.size()) {
    const LineSpan line = line_at(s, begin);
    const std::string_view content = s.substr(line.begin, line.end - line.begin);
    begin = line.next;
    if (trim_blanks(content).empty()) {
      at_block_start = true;
      skipping = in_cue = false;
      continue;
    }
    if (at_block_start) {
      for (const std::string_view word : {"NOTE", "STYLE", "REGION"}) {
        const std::string_view rest = content.substr(std::min(word.size(), content.size()));
        if (content.starts_with(word) && (rest.empty() || rest[0] == ' ' || rest[0] == '\t'))
          skipping = true;
      }
    }
    at_block_start = false;
    if (skipping) continue;
    if (content.find("-->") != std::string_view::npos) {
      const auto timing = parse_cue_timing(content);
      if (!timing) {
        return source.expected(line.begin, "times such as 00:01:02.500 --> 00:01:04.000, found " +
                                               std::string(trim_blanks(content.substr(0, 60))));
      }
      cues.push_back({timing->start, timing->end, line.begin, {}, {}});
      in_cue = true;
    } else if (in_cue) {
      // A tag may go on over the line's end, so the text is read as one up to the blank line.
      std::size_t end = line.end;
      while (begin < s.size()) {
        const LineSpan next = line_at(s, begin);
        const std::string_view more = s.substr(next.begin, next.end - next.begin);
        if (trim_blanks(more).empty() || more.find("-->") != std::string_view::npos) break;
        end = next.end;
        begin = next.next;
      }
      add_marked_up(s, line.begin, end, cues.back());
    }
  }
  if (cues.empty())
    return source.expected(0, "a cue such as 00:01:02.500 --> 00:01:04.000, found none");
  return read_cues(source, std::move(cues), Format::kWebVtt, std::move(title));
}

}  // namespace plyscribe::transcript
