// The line "00:01:02,500 --> 00:01:04,000" of SubRip and WebVTT.
#ifndef PLYSCRIBE_TRANSCRIPT_CUE_TIMING_H_
#define PLYSCRIBE_TRANSCRIPT_CUE_TIMING_H_

#include <optional>
#include <string_view>

namespace plyscribe::transcript {

struct CueTiming {
  double start, end;
};

// Settings after the times are left aside. Nothing where a time cannot be read.
std::optional<CueTiming> parse_cue_timing(std::string_view line);

// A line of a text from `begin` on: its end, and where the next one begins.
struct LineSpan {
  std::size_t begin, end, next;
};
LineSpan line_at(std::string_view text, std::size_t begin);

std::string_view trim_blanks(std::string_view s);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_CUE_TIMING_H_
