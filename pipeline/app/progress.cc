#include "app/progress.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <utility>

#include "publish/text.h"

namespace plyscribe::app {
namespace {

using namespace std::chrono_literals;

constexpr std::chrono::seconds kSilence = 1s;
constexpr auto kRedraw = 100ms;  // of the bar
constexpr std::chrono::seconds kFirstLine = 3s;
constexpr std::chrono::seconds kBetweenLines = 10s;
constexpr std::size_t kBar = 24;
constexpr std::size_t kBehindBar = 6;  // " 100 %"

}  // namespace

std::string progress_bar(const std::string& work, double share, std::size_t columns) {
  const double part = std::clamp(share, 0.0, 1.0);
  const auto full = static_cast<std::size_t>(std::lround(part * static_cast<double>(kBar)));
  const std::string bar = fmt::format("[{}{}] {:>3.0f} %", std::string(full, '#'),
                                      std::string(kBar - full, '.'), std::floor(part * 100));
  const std::size_t beside = kBar + 2 + kBehindBar + 2;
  if (publish::columns(work) + beside > columns) return bar;
  return work + "  " + bar;
}

Progress::Progress(std::string work, bool quiet)
    : work_(std::move(work)),
      quiet_(quiet),
      terminal_(terminal_at(STDERR_FILENO)),
      // A pipe is told now and then, and nothing of what is soon done.
      next_(Clock::now() + (terminal_.is_one ? kSilence : kFirstLine)) {}

Progress::~Progress() { done(); }

std::function<void(double)> Progress::reporter() {
  return [this](double share) { report(share); };
}

void Progress::report(double share) {
  if (quiet_) return;
  const auto now = Clock::now();
  if (now < next_) return;
  if (terminal_.is_one) {
    next_ = now + kRedraw;
    fmt::print(stderr, "\r{}", progress_bar(work_, share, terminal_.columns));
    shown_ = true;
  } else {
    next_ = now + kBetweenLines;
    fmt::print(stderr, "plyscribe: {}: {:.0f} %\n", work_, std::floor(share * 100));
  }
  std::fflush(stderr);
}

void Progress::done() {
  if (shown_) {
    fmt::print(stderr, "\r{}\r", std::string(terminal_.columns, ' '));
    std::fflush(stderr);
  }
  shown_ = false;
  quiet_ = true;
}

}  // namespace plyscribe::app
