// Whole files in and out.
#ifndef PLYSCRIBE_APP_FILES_H_
#define PLYSCRIBE_APP_FILES_H_

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "support/result.h"

namespace plyscribe::app {

// The bytes of a file, or of standard input where path is "-"; more than kMostBytes are refused, so
// that a file without end ends. Errors: "PATH: expected ...", with a file beside it whose name is
// like that of one that isn't there.
Result<std::string> read_file(const std::string& path);

struct OutputFile {
  std::string name;  // within the folder; "a/b" in a folder of its own, made if need be
  std::string_view bytes;
};

// Writes the files into the folder, which is made if need be. All or nothing as far as the file
// system allows: each is written beside its place and synced, and only when all are complete are
// they renamed into place. A failure leaves the files that were there before, and so do the signals
// that ask a program to end: they wait until all is written. (A program that is killed outright may
// leave a hidden draft, ".NAME.XXXXXX".) A link in a file's place is replaced, and what it points to
// left alone; a link in place of a folder within the folder is a failure: nothing goes elsewhere
// than where it was told to. Returns the failure.
std::optional<Error> write_files(const std::string& folder, const std::vector<OutputFile>& files);

// Everything, at once; a full disk or a closed pipe is a failure.
std::optional<Error> write_standard_output(std::string_view bytes);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_FILES_H_
