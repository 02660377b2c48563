#include "lexicon/openings.h"

#include <vector>

#include "embedded/opening_aliases_tsv.h"
#include "embedded/openings_tsv.h"
#include "lexicon/lines.h"

namespace plyscribe::lexicon {

std::span<const Opening> openings() {
  static const std::vector<Opening> table = [] {
    std::vector<Opening> out;
    std::string_view rest = embedded::openings_tsv;
    take_until(rest, '\n');  // header
    while (!rest.empty()) {
      std::string_view line = take_until(rest, '\n');
      const std::string_view eco = take_until(line, '\t'), name = take_until(line, '\t');
      if (!line.empty()) out.push_back({eco, name, line});
    }
    return out;
  }();
  return table;
}

std::span<const OpeningAlias> opening_aliases() {
  static const std::vector<OpeningAlias> table = [] {
    std::vector<OpeningAlias> out;
    std::string_view rest = embedded::opening_aliases_tsv;
    while (!rest.empty()) {
      std::string_view line = take_until(rest, '\n');
      const std::string_view name = take_until(line, '\t');
      if (!line.empty() && !name.starts_with('#')) out.push_back({name, line});
    }
    return out;
  }();
  return table;
}

}  // namespace plyscribe::lexicon
