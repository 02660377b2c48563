// Reader of SubRip captions.
//
//   1
//   00:00:03,000 --> 00:00:05,500
//   So after <i>c5</i>,
//   White takes
//
// Tolerated: missing numbers, blank lines inside a cue, "." before the milliseconds, hours left
// out.
#include <algorithm>

#include "transcript/caption_markup.h"
#include "transcript/cue_timing.h"
#include "transcript/cues.h"
#include "transcript/readers.h"

namespace plyscribe::transcript {
namespace {

bool is_number(std::string_view line) {
  line = trim_blanks(line);
  return !line.empty() && line.find_first_not_of("0123456789") == std::string_view::npos;
}

}  // namespace

Result<Transcript> read_subrip(const Source& source) {
  const std::string_view s = source.text();
  std::vector<Cue> cues;
  std::size_t text = 0, text_end = 0;  // of the open cue, [text, text_end)
  std::size_t number = 0;  // where a line that may number the next cue begins; text_end for none
  const auto close = [&](std::size_t end) {
    if (!cues.empty()) add_marked_up(s, text, end, cues.back());
  };
  for (std::size_t begin = 0; begin < s.size();) {
    const LineSpan line = line_at(s, begin);
    const std::string_view content = s.substr(line.begin, line.end - line.begin);
    if (content.find("-->") != std::string_view::npos) {
      const auto timing = parse_cue_timing(content);
      if (!timing) {
        return source.expected(line.begin, "times such as 00:01:02,500 --> 00:01:04,000, found " +
                                               std::string(trim_blanks(content.substr(0, 60))));
      }
      close(number);
      cues.push_back({timing->start, timing->end, line.begin, {}, {}});
      text = std::min(line.next, s.size());
      number = text;
    } else if (!is_number(content)) {
      number = std::min(line.next, s.size());  // numbers from here on are no text yet
    }
    text_end = std::min(line.next, s.size());
    begin = line.next;
  }
  close(text_end);
  if (cues.empty())
    return source.expected(0, "a line of times such as 00:01:02,500 --> 00:01:04,000, found none");
  return read_cues(source, std::move(cues), Format::kSubRip);
}

}  // namespace plyscribe::transcript
