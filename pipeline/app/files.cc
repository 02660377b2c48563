#include "app/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
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
#include "support/limits.h"

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

// Holds back the signals that ask a program to end, as long as it lives: those that came meanwhile
// are obeyed when it goes.
class Undisturbed {
 public:
  Undisturbed() {
    sigset_t ending;
    ::sigemptyset(&ending);
    for (const int signal : {SIGHUP, SIGINT, SIGTERM}) ::sigaddset(&ending, signal);
    ::pthread_sigmask(SIG_BLOCK, &ending, &before_);
  }
  ~Undisturbed() { ::pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  Undisturbed(const Undisturbed&) = delete;
  Undisturbed& operator=(const Undisturbed&) = delete;

 private:
  sigset_t before_;
};

// Folders that were made on the way; gone with their owner, those that are empty, unless kept.
class NewFolders {
 public:
  NewFolders() = default;
  ~NewFolders() {
    for (auto it = made_.rbegin(); it != made_.rend(); ++it) ::rmdir(it->c_str());
  }
  NewFolders(const NewFolders&) = delete;
  NewFolders& operator=(const NewFolders&) = delete;

  // With all that it lies in. False, and errno says why, where it can't be made.
  bool make(const fs::path& folder) {
    if (folder.empty() || is_folder(folder)) return true;
    if (!make(folder.parent_path())) return false;
    if (::mkdir(folder.c_str(), 0777) == 0) {
      made_.push_back(folder);
      return true;
    }
    const int why = errno;
    const bool there = why == EEXIST && is_folder(folder);  // "a/", or another program was faster
    errno = why == EEXIST ? ENOTDIR : why;
    return there;
  }
  void keep() { made_.clear(); }

 private:
  static bool is_folder(const fs::path& path) {
    struct stat about {};
    return ::stat(path.c_str(), &about) == 0 && S_ISDIR(about.st_mode);
  }

  std::vector<fs::path> made_;
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
  bool can_move() const {
    struct stat about {};
    if (::lstat(place_.c_str(), &about) != 0 || !S_ISDIR(about.st_mode)) return true;
    errno = EISDIR;
    return false;
  }
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
    if (bytes.size() + static_cast<std::size_t>(n) > kMostBytes) {
      return Error{fmt::format("{}: expected a file of at most {} MB", path, kMostMegabytes)};
    }
    bytes.append(buffer, static_cast<std::size_t>(n));
  }
}

std::optional<Error> write_files(const std::string& folder, const std::vector<OutputFile>& files) {
  const Undisturbed undisturbed;
  NewFolders made;
  std::set<fs::path> folders{folder};
  for (const OutputFile& file : files) {
    fs::path place = folder;
    for (const fs::path& part : fs::path(file.name).parent_path()) {
      place /= part;
      folders.insert(place);
    }
  }
  for (const fs::path& place : folders) {
    if (!made.make(place)) return unwritable(place.string());
    std::error_code failure;
    if (place != fs::path(folder) && fs::is_symlink(place, failure)) {
      return Error{fmt::format("{}: expected a folder, found a link to one", place.string())};
    }
  }
  std::vector<Draft> drafts;
  drafts.reserve(files.size());
  for (const OutputFile& file : files) {
    drafts.emplace_back(fs::path(folder) / file.name);
    if (!drafts.back().write(file.bytes)) return unwritable(folder);
  }
  for (const Draft& draft : drafts) {
    if (!draft.can_move()) return unwritable(folder);
  }
  for (Draft& draft : drafts) {
    if (!draft.move_into_place()) return unwritable(folder);
  }
  made.keep();
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
