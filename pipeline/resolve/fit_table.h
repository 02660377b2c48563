// Which moves a reading may name at a position, the likeliest first, each position weighed once.
//
//   FitTable table(reading);
//   auto known = table.find(line);                  // nullopt: not weighed yet
//   auto fits = table.put(line, best_fits(reading, lines.expand(line), best));
//
// What find() and put() return stays where it is as long as the table. Two steps lead to it: pages
// of places by line, since the lines of one hypothesis lie near each other, and blocks of fits.
#ifndef PLYSCRIBE_RESOLVE_FIT_TABLE_H_
#define PLYSCRIBE_RESOLVE_FIT_TABLE_H_

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "hearing/reading.h"
#include "resolve/line_tree.h"

namespace plyscribe::resolve {

// One move that a reading may name at a position.
struct Fit {
  board::Move move;
  board::Color mover = board::Color::kWhite;
  bool in_book = false;  // the position
  hearing::Match match;
  float log_prob = 0;   // policy
  float log_share = 0;  // of policy and channel together, among all fits at the position
};
using Fits = std::span<const Fit>;

constexpr std::size_t kMostFits = 5;  // kept for one reading at one position
using BestFits = std::array<Fit, kMostFits>;

// The best fits of a reading in the position of an expanded line, written to `best`.
Fits best_fits(const hearing::Reading& r, const Line& line, board::Bitboard targets,
               BestFits& best);

class FitTable {
 public:
  explicit FitTable(const hearing::Reading& r);
  // Squares that the reading's moves may go to; all of them where it doesn't say.
  board::Bitboard targets() const { return targets_; }
  std::optional<Fits> find(LineId line) const {
    const std::size_t page = line / kPage;
    if (page >= pages_.size() || pages_[page] == nullptr) return std::nullopt;
    const std::uint32_t place = (*pages_[page])[line % kPage];
    if (place == 0) return std::nullopt;
    const std::size_t first = (place - 1) / kCounts;
    const std::size_t count = (place - 1) % kCounts;
    if (count == 0) return Fits();
    return Fits(&blocks_[first / kBlock][first % kBlock], count);
  }
  Fits put(LineId line, Fits fits);  // at most kMostFits, of a line not yet put
  std::size_t bytes() const { return bytes_; }  // roughly

 private:
  static constexpr std::size_t kPage = 128, kBlock = 64;
  static constexpr std::uint32_t kCounts = 8;  // a place: (first fit * kCounts + how many) + 1
  using Page = std::array<std::uint32_t, kPage>;

  board::Bitboard targets_ = ~board::Bitboard{0};
  std::vector<std::unique_ptr<Page>> pages_;
  std::vector<std::unique_ptr<Fit[]>> blocks_;  // no line's fits go over the end of one
  std::size_t used_ = 0;                        // places in them
  std::size_t bytes_ = 0;
};

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_FIT_TABLE_H_
