// Time stamps and speakers' labels in plain text.
#ifndef PLYSCRIBE_TRANSCRIPT_STAMPS_H_
#define PLYSCRIBE_TRANSCRIPT_STAMPS_H_

#include <optional>
#include <string_view>

namespace plyscribe::transcript {

constexpr std::size_t kLookAhead = 300;  // bytes, for link texts and targets

struct Stamp {
  std::size_t length = 0;  // brackets and a link after them included
  char style = '\0';       // '[', '(' or '-' for bare
  double time = 0;
  bool valid = false;     // "[1:75]" is a stamp that cannot be read
  std::string_view text;  // the time as written
};

// The stamp at the start of s, if there is one: "[1:05]", "(1:05)", "1:05", "[1:05 - 1:20](link)".
std::optional<Stamp> stamp_at(std::string_view s, bool brackets_only);

// "Anna Berg  0:03" alone on a line: who speaks, and since when.
std::optional<Stamp> name_and_stamp(std::string_view line);

// Bytes of a speaker's label at the start of s: "ANNA:", "**Anna:**", "Speaker 1:", ">>".
std::size_t label_length(std::string_view s);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_STAMPS_H_
