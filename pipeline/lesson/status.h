// How far a move of the lesson may be trusted. The only place that holds the limits.
//
//   clear   heard as said
//   mended  sure, though the words were misheard or left out
//   unsure  needs a look
//   loose   named, but nowhere in the tree (never the status of a node)
#ifndef PLYSCRIBE_LESSON_STATUS_H_
#define PLYSCRIBE_LESSON_STATUS_H_

#include <cstdint>
#include <optional>
#include <string_view>

namespace plyscribe::lesson {

enum class Status : std::uint8_t { kClear, kMended, kUnsure, kLoose };

// A confidence from here on counts as sure.
constexpr double kSureFrom = 0.9;

constexpr Status status_of(double confidence, bool as_heard) {
  if (confidence < kSureFrom) return Status::kUnsure;
  return as_heard ? Status::kClear : Status::kMended;
}

constexpr std::string_view status_name(Status s) {
  switch (s) {
    case Status::kClear:
      return "clear";
    case Status::kMended:
      return "mended";
    case Status::kUnsure:
      return "unsure";
    case Status::kLoose:
      return "loose";
  }
  return "loose";
}

constexpr std::optional<Status> parse_status(std::string_view name) {
  for (Status s : {Status::kClear, Status::kMended, Status::kUnsure, Status::kLoose}) {
    if (name == status_name(s)) return s;
  }
  return std::nullopt;
}

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_STATUS_H_
