#include "transcript/clock_repair.h"

#include <algorithm>
#include <vector>

namespace plyscribe::transcript {
namespace {

constexpr double kUsualWord = 0.35;  // seconds from one start to the next

struct Block {
  std::size_t first, count;
  double sum;
  double mean() const { return sum / static_cast<double>(count); }
};

}  // namespace

void mend_clock(std::span<WordTime> times) {
  std::vector<Block> blocks;
  for (std::size_t i = 0; i < times.size(); ++i) {
    blocks.push_back({i, 1, times[i].start});
    while (blocks.size() > 1 && blocks[blocks.size() - 2].mean() > blocks.back().mean()) {
      const Block last = blocks.back();
      blocks.pop_back();
      blocks.back().count += last.count;
      blocks.back().sum += last.sum;
    }
  }
  for (std::size_t b = 0; b < blocks.size(); ++b) {
    const Block& k = blocks[b];
    if (k.count == 1) continue;
    const double n = static_cast<double>(k.count);
    const double usual = kUsualWord * n;
    const double low = b == 0 ? std::max(0.0, k.mean() - usual / 2) : times[k.first - 1].start;
    const double high =
        b + 1 == blocks.size() ? std::max(low, k.mean() + usual / 2) : blocks[b + 1].mean();
    const double length = std::min(usual, high - low);
    const double start = std::clamp(k.mean() - length / 2, low, high - length);
    for (std::size_t i = 0; i < k.count; ++i) {
      times[k.first + i] = {start + length * static_cast<double>(i) / n,
                            start + length * static_cast<double>(i + 1) / n, true};
    }
  }
  for (std::size_t i = 0; i + 1 < times.size();
       ++i) {  // an end after the next start came from the jump
    if (times[i + 1].mended && !times[i].mended && times[i].end > times[i + 1].start) {
      times[i].end = std::max(times[i].start, times[i + 1].start);
    }
  }
}

}  // namespace plyscribe::transcript
