// Word times of a recogniser whose clock jumped back.
#ifndef PLYSCRIBE_TRANSCRIPT_CLOCK_REPAIR_H_
#define PLYSCRIBE_TRANSCRIPT_CLOCK_REPAIR_H_

#include <span>

namespace plyscribe::transcript {

struct WordTime {
  double start = 0, end = 0;
  bool mended = false;
};

// Makes the starts rise, with the words kept in their order: recognisers that restart inside a
// recording emit words in the order they were said, with times that overlap, so that sorting by
// time would shuffle two sentences into one. Stretches that contradict each other get the same mean
// (isotonic regression, pooling adjacent violators) and are laid out evenly around it.
//
//   start  10 11 13 | 11 12 13       becomes  10 11 11.3 | 11.65 12 13
//
// Times that rise already are left as they are. Cost: linear.
void mend_clock(std::span<WordTime> times);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_CLOCK_REPAIR_H_
