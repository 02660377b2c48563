// The bytes of a file as UTF-8 text that knows where it came from.
//
// Input: bytes in UTF-8 (BOM or not), UTF-16 (either order, BOM or not) or Windows-1252.
// Output: UTF-8 text without BOM, and a map back to the bytes. Line ends are left as they are.
// Cost: nothing is copied for UTF-8; else the text and four bytes of map for each of its bytes.
// The Source reads the caller's bytes and name, which must outlive it.
#ifndef PLYSCRIBE_TRANSCRIPT_SOURCE_H_
#define PLYSCRIBE_TRANSCRIPT_SOURCE_H_

#include <string>
#include <string_view>
#include <vector>

#include "support/result.h"
#include "transcript/mapped_text.h"

namespace plyscribe::transcript {

class Source {
 public:
  // Errors: nothing in it, bytes that are no text, more than kMostBytes.
  static Result<Source> decode(std::string_view bytes, std::string_view name);

  std::string_view text() const {
    return converted_ ? std::string_view(owned_) : bytes_.substr(bom_);
  }

  // A range of text() as a range of the file's own bytes.
  Range in_bytes(Range r) const;

  // "NAME:LINE: expected WHAT"; the line is that of text()[offset].
  Error expected(std::size_t offset, std::string_view what) const;
  std::size_t line(std::size_t offset) const;  // from 1; cost: linear

 private:
  Source(std::string_view bytes, std::string_view name) : bytes_(bytes), name_(name) {}
  bool convert(const char* encoding);
  void keep_utf8_with_damage();

  std::string_view bytes_, name_;
  std::size_t bom_ = 0;     // bytes before the text
  bool converted_ = false;  // owned_ and at_ are in use
  std::string owned_;
  std::vector<std::uint32_t>
      at_;  // at_[i]: byte of the file that text()[i] starts in; one more for the end
};

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_SOURCE_H_
