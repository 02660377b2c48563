// Why the search decided as it did about the words at one moment of a lesson.
//
//   Decoder decoder(transcript);
//   decoder.decode(options);
//   write_explanation(explain(decoder, transcript, 432, 433))     432 s is 7:12
//
// Told of each mention there: the readings of its words; what the hypothesis that won in the end
// could have done with them, each with the terms of its gain; and how the outcomes stood when only
// the words up to there were known, some words later, and at the end. A tool for finding out why a
// miss was missed. Cost: negligible beside the decode.
#ifndef PLYSCRIBE_RESOLVE_EXPLAIN_H_
#define PLYSCRIBE_RESOLVE_EXPLAIN_H_

#include <array>
#include <string>
#include <vector>

#include "resolve/decoder.h"

namespace plyscribe::resolve {

// What speaks for a placement: the sounds and spellings, the sense of the move, the words around
// it, and where it stands in the talk and the tree.
enum class TermGroup : std::uint8_t { kChannel, kPolicy, kContext, kDiscourse };
constexpr std::size_t kTermGroups = 4;

struct Term {
  TermGroup group = TermGroup::kDiscourse;
  std::string name;  // as in weights.tsv: "action-gap:3", "l1=instead"
  float value = 0, weight = 0;
  float gain() const { return value * weight; }
};

struct HeardFit {
  std::string san;
  float cost = 0;      // nats, of the channel
  std::string mended;  // what had to be heard otherwise: "rank, capture unsaid"
};

struct HeardReading {
  std::string words, pattern;
  float cost = 0, background = 0;  // nats: of the reading itself; of the same words as talk
  bool primary = false;            // passing over it has a price
  std::vector<HeardFit> fits;      // at the cursor of the winner then, best first
};

struct WeighedPlacement {
  std::string words, action, line, move;  // line: "e4 e5 Nf3", from which the move is played
  int unsaid = 0;
  float gain = 0;
  double share = 0;  // of those weighed, by gain alone
  bool chosen = false;
  std::array<float, kTermGroups> by_group{};
  std::vector<Term> terms;  // largest first
};

// What may have become of the words, over the whole beam.
struct Outcome {
  std::string what;  // "e4 e5 Nf3", or "nothing placed"
  // At its own last word, kHindsight tokens later, at the end: rank among the outcomes (1 is
  // first), 0 where none is left in the beam; the share of the beam.
  std::array<int, 3> rank{};
  std::array<double, 3> share{};
  bool won = false;
  bool elsewhere = false;  // the line begins at another start position than the winner's
};

struct MentionExplained {
  double t = 0, t_end = 0;
  std::uint32_t first_word = 0, last_word = 0;
  std::string before, words, after;
  std::string cursor;  // line of the winner's cursor before them
  bool settled = false;
  std::vector<HeardReading> readings;
  std::vector<WeighedPlacement> weighed;  // best first
  std::vector<Outcome> outcomes;          // by their place at the end
};

// The mentions that touch seconds [from, to); where there are none, the words there. Empty if no
// word was spoken there. The decoder must have decoded.
std::vector<MentionExplained> explain(Decoder& decoder, const transcript::Transcript& transcript,
                                      double from, double to);

// For a terminal, lines of at most 100 columns where the words allow it.
std::string write_explanation(const std::vector<MentionExplained>& mentions);

}  // namespace plyscribe::resolve

#endif  // PLYSCRIBE_RESOLVE_EXPLAIN_H_
