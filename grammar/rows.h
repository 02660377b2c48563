// Data files of this folder: rows of fields parted by tabs, "#" begins a comment line.
#ifndef PLYSCRIBE_GRAMMAR_ROWS_H_
#define PLYSCRIBE_GRAMMAR_ROWS_H_

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <vector>

namespace plyscribe::grammar {

// A broken data file is a bug of the build.
[[noreturn]] inline void broken(const char* file, std::string_view line) {
  std::fprintf(stderr, "grammar/%s: cannot read '%.*s'\n", file, static_cast<int>(line.size()),
               line.data());
  std::abort();
}

template <typename Visit>
void each_line(std::string_view text, Visit visit) {
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    if (!line.empty() && line[0] != '#') visit(line);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
}

inline std::vector<std::string_view> split(std::string_view line, char sep) {
  std::vector<std::string_view> out;
  for (;;) {
    const std::size_t at = line.find(sep);
    out.push_back(line.substr(0, at));
    if (at == std::string_view::npos) return out;
    line.remove_prefix(at + 1);
  }
}

}  // namespace plyscribe::grammar

#endif  // PLYSCRIBE_GRAMMAR_ROWS_H_
