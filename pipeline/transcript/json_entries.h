// What a JSON transcript says, whatever its keys are called.
//
// Input: a JSON tree. Output: entries in the file's order, each a word or a segment.
#ifndef PLYSCRIBE_TRANSCRIPT_JSON_ENTRIES_H_
#define PLYSCRIBE_TRANSCRIPT_JSON_ENTRIES_H_

#include <optional>
#include <string>
#include <vector>

#include "transcript/json_tree.h"
#include "transcript/mapped_text.h"
#include "transcript/transcript.h"

namespace plyscribe::transcript {

struct JsonTime {
  double value = 0;
  bool in_seconds = false;  // said so; else seconds, milliseconds or ticks, see json_words.cc
};

struct JsonEntry {
  MappedText text;
  std::optional<JsonTime> start, end;
  std::optional<double> confidence;  // as written
  std::vector<Alternative>
      alternatives;              // other readings of the whole entry, confidence as written
  std::vector<JsonEntry> words;  // its words, if it has them
  std::size_t at = 0;            // place in the source, for messages
};

std::vector<JsonEntry> find_entries(const Source& source, const JsonValue& root);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_JSON_ENTRIES_H_
