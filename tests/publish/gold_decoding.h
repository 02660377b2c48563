// A lesson's gold tree as if the search had found it: what the outputs are tested with.
//
// Input: a gold.json. Output: the Decoding that says exactly what was meant (unsaid moves played
// too), and a Transcript with the spoken words of each mention at their times. Words outside
// mentions are "talk".
#ifndef PLYSCRIBE_TESTS_PUBLISH_GOLD_DECODING_H_
#define PLYSCRIBE_TESTS_PUBLISH_GOLD_DECODING_H_

#include <cstdint>
#include <string>

#include "resolve/decoding.h"
#include "support/result.h"
#include "transcript/transcript.h"

namespace plyscribe::tests {

struct GoldDecoding {
  resolve::Decoding decoding;
  transcript::Transcript transcript;
};

Result<GoldDecoding> read_gold_decoding(const std::string& path);

// A wrong decoding, different for each seed: subtrees lost, moves exchanged for others that are
// legal, moves added, some mentions misheard or unsure. Still legal throughout.
void perturb(GoldDecoding& gold, std::uint32_t seed);

}  // namespace plyscribe::tests

#endif  // PLYSCRIBE_TESTS_PUBLISH_GOLD_DECODING_H_
