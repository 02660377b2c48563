// How long a word takes to say, as a share of those around it.
#ifndef PLYSCRIBE_TRANSCRIPT_SPEECH_WEIGHT_H_
#define PLYSCRIBE_TRANSCRIPT_SPEECH_WEIGHT_H_

#include "transcript/transcript.h"

namespace plyscribe::transcript {

constexpr double kMeanSpeechWeight = 8.5;  // of running English text

// A word lasts about as long as four letters plus its own; marks after it are a breath of three. A
// written move lasts as long as what is said for it: "Nxe4+" is "knight takes e4 check".
// Fitted on a synthetic voice heard by a word recogniser (0.071 s + 0.050 s a letter, without
// marks); the wider base also suits recordings of even pace.
double speech_weight(const Word& word);

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_SPEECH_WEIGHT_H_
