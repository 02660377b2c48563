// Clock times as captions write them.
#ifndef PLYSCRIBE_TRANSCRIPT_CLOCK_H_
#define PLYSCRIBE_TRANSCRIPT_CLOCK_H_

#include <optional>
#include <string>
#include <string_view>

namespace plyscribe::transcript {

// "m:ss", "mm:ss.mmm", "h:mm:ss,mmm" as seconds; nothing else around it. Minutes go up to 999 where
// no hours stand before them, else to 59; seconds to 59.
std::optional<double> parse_clock(std::string_view text);

// How many bytes at the start of text have the shape of a clock time, valid or not: 0 for none.
std::size_t clock_length(std::string_view text);

// A plain number: digits, at most one dot, nothing else. "1.5", "12", ".5".
std::optional<double> parse_decimal(std::string_view text);

// For messages: "1:05", "1:02:03.5".
std::string show_clock(double seconds);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_CLOCK_H_
