// How far a piece of work has come, on standard error.
//
//   Progress progress("reading lesson.vtt", quiet);
//   resolve::decode(transcript, {.progress = progress.reporter()});
//
// Says nothing in the first second. After it, a terminal shows a bar, which is wiped out at the
// end; a file or pipe gets a line after three seconds, then every ten. Nothing at all where quiet.
#ifndef PLYSCRIBE_APP_PROGRESS_H_
#define PLYSCRIBE_APP_PROGRESS_H_

#include <chrono>
#include <functional>
#include <string>

#include "app/terminal.h"

namespace plyscribe::app {

// "reading lesson.vtt  [######....] 60 %", at most `columns` wide: the name gives way to the bar.
std::string progress_bar(const std::string& work, double share, std::size_t columns);

class Progress {
 public:
  Progress(std::string work, bool quiet);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  // To be called with shares from 0 to 1. Lives no longer than the Progress.
  std::function<void(double)> reporter();
  void done();  // wipes the bar out; nothing is shown from here on

 private:
  using Clock = std::chrono::steady_clock;
  void report(double share);

  std::string work_;
  bool quiet_;
  Terminal terminal_;
  Clock::time_point next_;
  bool shown_ = false;
};

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_PROGRESS_H_
