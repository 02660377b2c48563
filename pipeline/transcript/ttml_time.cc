#include "transcript/ttml_time.h"

#include <algorithm>

#include "transcript/clock.h"
#include "transcript/cue_timing.h"

namespace plyscribe::transcript {
namespace {

std::optional<double> offset_time(std::string_view s, const TtmlClock& clock) {
  const std::size_t digits = std::min(s.find_first_not_of("0123456789."), s.size());
  const auto count = parse_decimal(s.substr(0, digits));
  if (!count) return std::nullopt;
  const std::string_view metric = s.substr(digits);
  if (metric == "h") return *count * 3600;
  if (metric == "m") return *count * 60;
  if (metric == "s") return *count;
  if (metric == "ms") return *count / 1000;
  if (metric == "f") return *count / clock.frame_rate;
  if (metric == "t") return *count / clock.tick_rate;
  return std::nullopt;
}

std::optional<double> positive(std::string_view s) {
  const auto value = parse_decimal(s);
  return value && *value > 0 ? value : std::nullopt;
}

}  // namespace

std::optional<double> parse_ttml_time(std::string_view text, const TtmlClock& clock) {
  text = trim_blanks(text);
  if (const auto offset = offset_time(text, clock)) return offset;
  if (std::count(text.begin(), text.end(), ':') < 3) return parse_clock(text);
  const std::size_t colon = text.rfind(':');
  const auto seconds = parse_clock(text.substr(0, colon));
  const std::string_view rest = text.substr(colon + 1);
  const std::size_t dot = rest.find('.');
  const auto frames = parse_decimal(rest.substr(0, dot));
  const auto parts = dot == std::string_view::npos ? std::optional<double>(0)
                                                   : parse_decimal(rest.substr(dot + 1));
  if (!seconds || !frames || !parts ||
      text.substr(0, colon).find_first_of(".,") != std::string_view::npos) {
    return std::nullopt;
  }
  return *seconds + (*frames + *parts / clock.sub_frame_rate) / clock.frame_rate;
}

std::optional<TtmlClock> parse_ttml_clock(std::string_view frame_rate, std::string_view multiplier,
                                          std::string_view sub_frame_rate,
                                          std::string_view tick_rate) {
  TtmlClock clock;
  double frames = clock.frame_rate;
  if (!frame_rate.empty()) {
    const auto value = positive(trim_blanks(frame_rate));
    if (!value) return std::nullopt;
    frames = *value;
  }
  clock.frame_rate = frames;
  if (!multiplier.empty()) {  // "1000 1001"; older files write "1000:1001"
    multiplier = trim_blanks(multiplier);
    const std::size_t gap = multiplier.find_first_of(" :");
    const auto above = positive(multiplier.substr(0, gap));
    const auto below = gap == std::string_view::npos
                           ? std::optional<double>(1)
                           : positive(trim_blanks(multiplier.substr(gap + 1)));
    if (!above || !below) return std::nullopt;
    clock.frame_rate *= *above / *below;
  }
  if (!sub_frame_rate.empty()) {
    const auto value = positive(trim_blanks(sub_frame_rate));
    if (!value) return std::nullopt;
    clock.sub_frame_rate = *value;
  }
  if (!tick_rate.empty()) {
    const auto value = positive(trim_blanks(tick_rate));
    if (!value) return std::nullopt;
    clock.tick_rate = *value;
  } else if (!frame_rate.empty()) {
    clock.tick_rate = frames * clock.sub_frame_rate;
  }
  return clock;
}

}  // namespace plyscribe::transcript
