// JSON as a tree that knows where its strings stand in the source.
//
// Cost: one node per value; depth is bounded, so that walking it may recurse.
#ifndef PLYSCRIBE_TRANSCRIPT_JSON_TREE_H_
#define PLYSCRIBE_TRANSCRIPT_JSON_TREE_H_

#include <cstdint>
#include <string>
#include <vector>

#include "support/result.h"
#include "transcript/mapped_text.h"
#include "transcript/source.h"

namespace plyscribe::transcript {

struct JsonValue {
  enum class Kind : std::uint8_t { kNull, kBool, kNumber, kString, kArray, kObject };
  Kind kind = Kind::kNull;
  std::string key;  // of this member of an object, in lower case without "_" and "-"
  double number = 0;
  Range raw;                     // of a string: between its quotes; else where the value was seen
  std::vector<JsonValue> items;  // of arrays and objects, in order

  bool is_string() const { return kind == Kind::kString; }
  bool is_number() const { return kind == Kind::kNumber; }
  bool is_array() const { return kind == Kind::kArray; }
  bool is_object() const { return kind == Kind::kObject; }
  const JsonValue* member(std::string_view name) const;  // first of that key, or nullptr
};

constexpr std::size_t kMaxJsonDepth = 100;

// One value, or several on end (as of "JSON lines"), which are given as one array.
// Errors: malformed, deeper than kMaxJsonDepth.
Result<JsonValue> parse_json(const Source& source);

// A string's characters without escapes, each with its place in the source.
MappedText json_string(const Source& source, const JsonValue& value);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_JSON_TREE_H_
