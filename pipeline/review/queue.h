// What needs a look, most useful first.
//
// The effect of an item is what a wrong reading costs the tree: the moves that rest on it times how
// unsure it is. A mention bears its move and every move that is told after it below that move.
// Words that were not placed bear one move, and nothing is sure about them.
#ifndef PLYSCRIBE_REVIEW_QUEUE_H_
#define PLYSCRIBE_REVIEW_QUEUE_H_

#include <cstddef>
#include <string>
#include <vector>

#include "lesson/lesson.h"
#include "resolve/decoding.h"
#include "review/reason.h"

namespace plyscribe::review {

struct Item {
  enum class Kind : std::uint8_t { kStart, kPin, kMention };
  Kind kind = Kind::kMention;
  std::size_t mention = 0;  // kMention: index into Decoding::mentions
  std::size_t pin = 0;      // kPin: index into the pins, of one that cannot hold
  std::size_t below = 0;    // moves that rest on it
  double effect = 0;
  std::string reason;
};

// A correction that cannot hold comes before everything else: a person has to know. Words that a
// pin has settled are never in the queue.
std::vector<Item> build_queue(const resolve::Decoding& decoding, const lesson::Lesson& lesson,
                              const Hearing& hearing);

}  // namespace plyscribe::review

#endif  // PLYSCRIBE_REVIEW_QUEUE_H_
