#include "app/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <set>
#include <system_error>
#include <utility>

#include "app/usage_error.h"

namespace plyscribe::app {
namespace {

namespace fs = std::filesystem;

// An open file descriptor; closed with its owner.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  ~Descriptor() {
    if (fd_ >= 0) ::close(fd_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int get() const { return fd_; }
  explicit operator bool() const { return fd_ >= 0; }

 private:
  int fd_;
};

// A file that is being written beside its place; gone with its owner unless renamed.
class Draft {
 public:
  explicit Draft(const fs::path& place)
      : place_(place),
        path_((place.parent_path() / ("." + place.filename().string() + ".XXXXXX")).string()) {}
  ~Draft() {
    if (!done_) ::unlink(path_.c_str());
  }
  Draft(Draft&& other) noexcept
      : place_(std::move(other.place_)),
        path_(std::move(other.path_)),
        done_(std::exchange(other.done_, true)) {}
  Draft& operator=(Draft&&) = delete;

  bool write(std::string_view bytes);
  bool move_into_place() {
    done_ = ::rename(path_.c_str(), place_.c_str()) == 0;
    return done_;
  }

 private:
  fs::path place_;
  std::string path_;
  bool done_ = true;  // nothing to remove
};

bool write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(fd, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

bool Draft::write(std::string_view bytes) {
  const Descriptor file(::mkstemp(path_.data()));
  if (!file) return false;
  done_ = false;
  const mode_t mask = ::umask(0);  // mkstemp makes private files; these are ordinary ones
  ::umask(mask);
  return ::fchmod(file.get(), 0666 & ~mask) == 0 && write_all(file.get(), bytes) &&
         ::fsync(file.get()) == 0;
}

Error unwritable(const std::string& folder) {
  return {
      fmt::format("{}: expected a folder that can be written: {}", folder, std::strerror(errno))};
}

// The file beside it whose name is nearest, if any is near.
std::string neighbour(const fs::path& path) {
  const fs::path folder = path.parent_path();
  std::vector<std::string> names;
  std::error_code failure;
  for (fs::directory_iterator it(folder.empty() ? "." : folder, failure), end; it != end;
       it.increment(failure)) {
    if (failure) break;
    names.push_back(it->path().filename().string());
  }
  std::sort(names.begin(), names.end());
  const std::string name = nearest(path.filename().string(), names);
  return name.empty() ? name : (folder / name).string();
}

}  // namespace

Result<std::string> read_file(const std::string& path) {
  const bool standard = path == "-";
  const Descriptor file(standard ? ::dup(STDIN_FILENO)
                                 : ::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  std::string bytes;
  char buffer[1 << 16];
  for (;;) {
    const ssize_t n = file ? ::read(file.get(), buffer, sizeof buffer) : -1;
    if (n < 0 && file && errno == EINTR) continue;
    if (n < 0) {
      const int why = errno;
      const std::string instead = why == ENOENT ? neighbour(path) : "";
      return Error{fmt::format("{}: expected a file that can be read: {}{}", path,
                               std::strerror(why),
                               instead.empty() ? "" : "; did you mean " + instead + "?")};
    }
    if (n == 0) return bytes;
    bytes.append(buffer, static_cast<std::size_t>(n));
  }
}

std::optional<Error> write_files(const std::string& folder, const std::vector<OutputFile>& files) {
  std::set<fs::path> folders{folder};
  for (const OutputFile& file : files) folders.insert((fs::path(folder) / file.name).parent_path());
  for (const fs::path& place : folders) {
    std::error_code failure;
    fs::create_directories(place, failure);
    if (failure) {
      errno = failure.value();
      return unwritable(place.string());
    }
  }
  std::vector<Draft> drafts;
  drafts.reserve(files.size());
  for (const OutputFile& file : files) {
    drafts.emplace_back(fs::path(folder) / file.name);
    if (!drafts.back().write(file.bytes)) return unwritable(folder);
  }
  for (Draft& draft : drafts) {
    if (!draft.move_into_place()) return unwritable(folder);
  }
  for (const fs::path& place : folders) {
    const Descriptor directory(::open(place.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (directory) ::fsync(directory.get());
  }
  return std::nullopt;
}

std::optional<Error> write_standard_output(std::string_view bytes) {
  if (write_all(STDOUT_FILENO, bytes)) return std::nullopt;
  return Error{
      fmt::format("standard output: expected to be able to write: {}", std::strerror(errno))};
}

}  // namespace plyscribe::app
