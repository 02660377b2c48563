// Time expressions of TTML (W3C, "Timed Text Markup Language", section "Time Value Expressions").
#ifndef PLYSCRIBE_TRANSCRIPT_TTML_TIME_H_
#define PLYSCRIBE_TRANSCRIPT_TTML_TIME_H_

#include <optional>
#include <string_view>

namespace plyscribe::transcript {

// The document's clock: the ttp: parameters of its root.
struct TtmlClock {
  double frame_rate = 30;     // frames a second, the multiplier included
  double sub_frame_rate = 1;  // parts of a frame
  double tick_rate = 1;       // ticks a second
};

// "00:01:02.5", "00:01:02:12" and "00:01:02:12.1" (frames and parts), "62.5s", "1500ms", "1.5m",
// "2h", "120f", "620000t".
std::optional<double> parse_ttml_time(std::string_view text, const TtmlClock& clock);

// From the root's attributes; empty ones were not given. Nothing where one cannot be read.
std::optional<TtmlClock> parse_ttml_clock(std::string_view frame_rate, std::string_view multiplier,
                                          std::string_view sub_frame_rate,
                                          std::string_view tick_rate);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_TTML_TIME_H_
