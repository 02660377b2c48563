// Small decodings for tests, put together move by move.
//
//   Sketch s;
//   const auto e4 = s.node(0, "e4");
//   s.say(e4, 12.5, "he for", {.confidence = 0.9, .as_heard = false});
//   lesson::Lesson lesson = s.lesson();
#ifndef PLYSCRIBE_TESTS_PUBLISH_SKETCH_H_
#define PLYSCRIBE_TESTS_PUBLISH_SKETCH_H_

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "board/notation.h"
#include "lesson/lesson.h"

namespace plyscribe::tests {

struct Saying {
  resolve::Act act = resolve::Act::kPlay;
  double confidence = 1;
  bool as_heard = true;
  std::string text = {};  // of an idea; why a loose one is loose
  std::vector<resolve::Choice> alternatives = {};
};

class Sketch {
 public:
  // From the initial position by moves, or from a FEN.
  explicit Sketch(const std::string& start = "") {
    resolve::Start& s = decoding.start;
    s.position = board::Position::initial();
    s.how = "given";
    if (start.find('/') != std::string::npos) {
      s.position = *board::parse_fen(start);
    } else {
      s.moves = *board::parse_line(s.position, start);
      for (const board::Move m : s.moves) s.position = s.position.after(m);
    }
    decoding.nodes.push_back({-1, board::kNoMove, s.position, false});
    transcript.duration = 100;
  }

  // An unsaid move becomes a said one with its first saying.
  std::int32_t node(std::int32_t parent, const std::string& san) {
    const board::Position& before = decoding.nodes[static_cast<std::size_t>(parent)].position;
    const board::Move move = *board::parse_san(before, san);
    decoding.nodes.push_back({parent, move, before.after(move), true});
    return static_cast<std::int32_t>(decoding.nodes.size()) - 1;
  }

  // Words at t, a second each. Call in the order of time.
  void say(std::int32_t node, double t, const std::string& words, const Saying& saying = {}) {
    resolve::Mention m;
    m.first_word = static_cast<std::uint32_t>(transcript.words.size());
    std::istringstream in(words);
    for (transcript::Word word; in >> word.text; t += 1) {
      word.start = t;
      word.end = t + 1;
      transcript.words.push_back(word);
    }
    m.last_word = static_cast<std::uint32_t>(transcript.words.size());
    m.act = saying.act;
    m.node = node;
    m.confidence = saying.confidence;
    m.as_heard = saying.as_heard;
    m.alternatives = saying.alternatives;
    if (saying.act == resolve::Act::kIdea) m.idea = saying.text;
    if (saying.act == resolve::Act::kLoose) m.why = saying.text;
    if (saying.act == resolve::Act::kPlay) {
      decoding.nodes[static_cast<std::size_t>(node)].unsaid = false;
    }
    decoding.mentions.push_back(std::move(m));
  }

  // node and say in one: the move in its own words.
  std::int32_t play(std::int32_t parent, const std::string& san, double t) {
    const std::int32_t id = node(parent, san);
    say(id, t, san);
    return id;
  }

  lesson::Lesson lesson() const { return lesson::build_lesson(decoding, transcript); }

  resolve::Decoding decoding;
  transcript::Transcript transcript;
};

}  // namespace plyscribe::tests

#endif  // PLYSCRIBE_TESTS_PUBLISH_SKETCH_H_
