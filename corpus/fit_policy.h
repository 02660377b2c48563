// Fits the move prior: which legal moves are talked about.
#ifndef PLYSCRIBE_CORPUS_FIT_POLICY_H_
#define PLYSCRIBE_CORPUS_FIT_POLICY_H_

#include <vector>

#include "corpus/gold.h"

namespace plyscribe::corpus {

// Weights by policy feature (resolve/policy.h): a conditional logit on the moves of gold trees,
// with lines of the openings table as lighter examples.
std::vector<float> fit_policy(const std::vector<const Gold*>& golds);

}  // namespace plyscribe::corpus

#endif  // PLYSCRIBE_CORPUS_FIT_POLICY_H_
