#include "review/media.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <utility>

namespace plyscribe::review {
namespace {

std::optional<std::uint64_t> number(std::string_view digits) {
  std::uint64_t value = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (digits.empty() || error != std::errc() || end != digits.data() + digits.size()) return {};
  return value;
}

}  // namespace

std::optional<ByteRange> parse_range(std::string_view header, std::uint64_t size) {
  constexpr std::string_view kUnit = "bytes=";
  if (!header.starts_with(kUnit) || size == 0) return {};
  header.remove_prefix(kUnit.size());
  const std::size_t dash = header.find('-');
  if (dash == std::string_view::npos) return {};
  const std::string_view from = header.substr(0, dash), to = header.substr(dash + 1);
  if (from.empty()) {  // the last so many bytes
    const auto count = number(to);
    if (!count || *count == 0) return {};
    return ByteRange{size - std::min(size, *count), size - 1};
  }
  const auto first = number(from);
  const auto last = to.empty() ? std::optional(size - 1) : number(to);
  if (!first || !last || *first >= size || *last < *first) return {};
  return ByteRange{*first, std::min(*last, size - 1)};
}

std::string media_type(std::string_view name) {
  // By common practice; IANA's registry of media types has most of them.
  static constexpr std::pair<std::string_view, std::string_view> kTypes[] = {
      {"mp4", "video/mp4"},       {"m4v", "video/mp4"},        {"webm", "video/webm"},
      {"mov", "video/quicktime"}, {"mkv", "video/x-matroska"}, {"ogv", "video/ogg"},
      {"mp3", "audio/mpeg"},      {"m4a", "audio/mp4"},        {"aac", "audio/aac"},
      {"ogg", "audio/ogg"},       {"oga", "audio/ogg"},        {"opus", "audio/ogg"},
      {"flac", "audio/flac"},     {"wav", "audio/wav"},
  };
  const std::size_t dot = name.rfind('.');
  std::string ending(dot == std::string_view::npos ? std::string_view() : name.substr(dot + 1));
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (const auto& [known, type] : kTypes) {
    if (ending == known) return std::string(type);
  }
  return "application/octet-stream";
}

bool is_web_address(std::string_view text) {
  const std::size_t scheme = text.starts_with("https://") ? 8 : text.starts_with("http://") ? 7 : 0;
  if (scheme == 0 || text.size() == scheme || text[scheme] == '/') return false;
  return std::all_of(text.begin(), text.end(), [](unsigned char c) {
    return c > ' ' && c < 127 && std::strchr("\"'<>\\`;,{}|^", c) == nullptr;
  });
}

std::string origin_of(std::string_view address) {
  const std::size_t host = address.find("//") + 2;
  const std::string_view authority =
      address.substr(host, address.find_first_of("/?#", host) - host);
  const std::size_t user = authority.rfind('@');  // a name before the host is no part of the origin
  return std::string(address.substr(0, host)) +
         std::string(user == std::string_view::npos ? authority : authority.substr(user + 1));
}

Result<MediaFile> MediaFile::open(const std::string& path) {
  const int fd = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  struct stat about {};
  if (fd < 0 || ::fstat(fd, &about) != 0 || !S_ISREG(about.st_mode)) {
    const std::string why = fd < 0 ? std::strerror(errno) : "not an ordinary file";
    if (fd >= 0) ::close(fd);
    return Error{fmt::format("{}: expected a recording that can be read: {}", path, why)};
  }
  return MediaFile(fd, static_cast<std::uint64_t>(about.st_size), media_type(path));
}

MediaFile::MediaFile(MediaFile&& other) noexcept
    : fd_(std::exchange(other.fd_, -1)), size_(other.size_), type_(std::move(other.type_)) {}

MediaFile::~MediaFile() {
  if (fd_ >= 0) ::close(fd_);
}

std::int64_t MediaFile::read(std::uint64_t offset, char* buffer, std::size_t length) const {
  std::size_t done = 0;
  while (done < length) {
    const ssize_t n = ::pread(fd_, buffer + done, length - done, static_cast<off_t>(offset + done));
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return -1;
    if (n == 0) break;
    done += static_cast<std::size_t>(n);
  }
  return static_cast<std::int64_t>(done);
}

}  // namespace plyscribe::review
