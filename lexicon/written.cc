#include "lexicon/written.h"

#include <charconv>
#include <string>

#include "embedded/written_tsv.h"
#include "lexicon/lines.h"

namespace plyscribe::lexicon {

float written_cost(std::string_view kind, std::string_view said, std::string_view written) {
  std::string_view rest = embedded::written_tsv;
  while (!rest.empty()) {
    std::string_view line = take_until(rest, '\n');
    if (take_until(line, '\t') != kind || take_until(line, '\t') != said ||
        take_until(line, '\t') != written)
      continue;
    float cost = kNotWritten;
    std::from_chars(line.data(), line.data() + line.size(), cost);
    return cost;
  }
  return kNotWritten;
}

const WrittenCosts& written_costs() {
  static const WrittenCosts costs = [] {
    WrittenCosts out;
    constexpr std::string_view kFiles = "abcdefgh", kRanks = "12345678", kPieces = "-?NBRQK";
    const auto fill = [](auto& table, std::string_view kind, std::string_view names) {
      for (std::size_t s = 0; s < names.size(); ++s) {
        for (std::size_t w = 0; w < names.size(); ++w)
          table[s][w] = written_cost(kind, names.substr(s, 1), names.substr(w, 1));
      }
    };
    fill(out.file, "file", kFiles);
    fill(out.rank, "rank", kRanks);
    fill(out.piece, "piece", kPieces);
    out.capture_lost = written_cost("capture", "x", "-");
    out.capture_invented = written_cost("capture", "-", "x");
    out.origin_lost = written_cost("origin", "one", "-");
    out.origin_invented = written_cost("origin", "-", "one");
    return out;
  }();
  return costs;
}

}  // namespace plyscribe::lexicon
