// The recording, and the parts of it that a player asks for.
//
// A player seeks by asking for ranges of bytes (RFC 9110, section 14). Only the one file that was
// named is ever read; it stays open, so that a rename under it changes nothing.
#ifndef PLYSCRIBE_REVIEW_MEDIA_H_
#define PLYSCRIBE_REVIEW_MEDIA_H_

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "support/result.h"

namespace plyscribe::review {

struct ByteRange {
  std::uint64_t first = 0, last = 0;  // both included
  std::uint64_t size() const { return last - first + 1; }
  friend bool operator==(const ByteRange&, const ByteRange&) = default;
};

// The value of a Range header against a file of `size` bytes. A range that begins behind the end,
// or that cannot be read, is nothing; so are several at once, which no player of one stream needs.
std::optional<ByteRange> parse_range(std::string_view header, std::uint64_t size);

// "video/mp4" for lesson.mp4; "application/octet-stream" where the name tells nothing.
std::string media_type(std::string_view name);

// http:// or https://, with a host, and nothing in it that could end an attribute or a header.
bool is_web_address(std::string_view text);
// "https://host:port" of a web address.
std::string origin_of(std::string_view address);

class MediaFile {
 public:
  static Result<MediaFile> open(const std::string& path);
  MediaFile(MediaFile&& other) noexcept;
  MediaFile& operator=(MediaFile&&) = delete;
  ~MediaFile();

  std::uint64_t size() const { return size_; }
  const std::string& type() const { return type_; }
  // Up to `length` bytes from `offset`; fewer only at the file's end. -1 if it can't be read.
  std::int64_t read(std::uint64_t offset, char* buffer, std::size_t length) const;

 private:
  MediaFile(int fd, std::uint64_t size, std::string type)
      : fd_(fd), size_(size), type_(std::move(type)) {}

  int fd_;
  std::uint64_t size_;
  std::string type_;
};

}  // namespace plyscribe::review

#endif  // PLYSCRIBE_REVIEW_MEDIA_H_
