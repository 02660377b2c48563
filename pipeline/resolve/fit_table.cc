#include "resolve/fit_table.h"

#include <algorithm>
#include <cmath>

namespace plyscribe::resolve {
namespace {

// Nats by which one fit is likelier than another.
float worth_of(const Fit& f) {
  constexpr std::uint16_t kLoose = hearing::kCaptureUnsaid | hearing::kCaptureFalse |
                                   hearing::kPieceUnsaid | hearing::kCheckFalse;
  return f.log_prob - f.match.cost - ((f.match.mends & kLoose) != 0 ? 1.5F : 0.0F);
}

}  // namespace

Fits best_fits(const hearing::Reading& r, const Line& line, board::Bitboard targets,
               BestFits& best) {
  std::array<float, 256> worths;  // of all that fit
  std::size_t fitting = 0;
  std::array<float, kMostFits> best_worths{};
  std::size_t kept = 0;
  for (std::size_t i = 0; i < line.moves.size(); ++i) {
    const board::Move move = line.moves[i];
    if ((targets & board::bit(move.to())) == 0) continue;
    const Fit fit{.move = move,
                  .mover = line.position.side_to_move(),
                  .in_book = line.in_book,
                  .match = hearing::match(r, line.position, move, line.checks[i]),
                  .log_prob = line.log_probs[i]};
    if (!fit.match.ok()) continue;
    const float worth = worth_of(fit);
    worths[fitting++] = worth;
    if (kept == kMostFits && worth <= best_worths.back()) continue;
    std::size_t at = kept < kMostFits ? kept++ : kMostFits - 1;
    for (; at > 0 && best_worths[at - 1] < worth; --at) {  // among equals the earlier move leads
      best_worths[at] = best_worths[at - 1];
      best[at] = best[at - 1];
    }
    best_worths[at] = worth;
    best[at] = fit;
  }
  if (fitting == 0) return {};
  double sum = 0;
  for (std::size_t i = 0; i < fitting; ++i) {
    sum += std::exp(static_cast<double>(worths[i] - best_worths[0]));
  }
  const auto norm = static_cast<float>(std::log(sum));
  for (std::size_t i = 0; i < kept; ++i) {
    best[i].log_share = best_worths[i] - best_worths[0] - norm;
  }
  // What is far less likely than the best here only crowds the beam.
  while (kept > 1 && best[kept - 1].log_share < -7) --kept;
  return {best.data(), kept};
}

FitTable::FitTable(const hearing::Reading& r) {
  if (!r.has_to || r.castle != 0) return;
  targets_ = 0;
  for (std::size_t square = 0; square < r.to.size(); ++square) {
    if (r.to[square] < hearing::kNever / 2) targets_ |= board::bit(static_cast<board::Square>(square));
  }
}

Fits FitTable::put(LineId line, Fits fits) {
  static_assert(kMostFits < kCounts);
  const std::size_t page = line / kPage;
  if (page >= pages_.size()) pages_.resize(page + 1);
  if (pages_[page] == nullptr) {
    pages_[page] = std::make_unique<Page>();
    bytes_ += sizeof(Page);
  }
  if (used_ % kBlock + fits.size() > kBlock) used_ += kBlock - used_ % kBlock;
  if (used_ + fits.size() > blocks_.size() * kBlock) {
    blocks_.push_back(std::make_unique<Fit[]>(kBlock));
    bytes_ += kBlock * sizeof(Fit);
  }
  (*pages_[page])[line % kPage] = static_cast<std::uint32_t>(used_ * kCounts + fits.size()) + 1;
  if (fits.empty()) return {};
  Fit* const to = &blocks_[used_ / kBlock][used_ % kBlock];
  std::copy(fits.begin(), fits.end(), to);
  used_ += fits.size();
  return {to, fits.size()};
}

}  // namespace plyscribe::resolve
