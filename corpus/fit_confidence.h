// Fits how sure a move is said to be, from moves that are known to be right or wrong.
//
//   for (const Judged& j : read_judged("judged.0")) rows.push_back(j);
//   learn_confidence(rows, model);     // sets model.confidence, prints how well it does
//
// Logistic regression, apart for clean, dictated and spoken words. What is printed is
// cross-validated: each lesson is scored by weights that had not seen it.
#ifndef PLYSCRIBE_CORPUS_FIT_CONFIDENCE_H_
#define PLYSCRIBE_CORPUS_FIT_CONFIDENCE_H_

#include <string>
#include <vector>

#include "resolve/confidence.h"
#include "resolve/model.h"

namespace plyscribe::corpus {

// A placed move and whether it is an edge of the gold tree.
struct Judged {
  int trust = 0;
  std::string lesson;
  bool right = false;
  resolve::Evidence evidence;
};

std::string write_judged(const Judged& j);                 // a line
std::vector<Judged> read_judged(const std::string& path);  // lines of a file

// Fits by trust on all rows; reports what the rows of left-out lessons would have got.
void learn_confidence(const std::vector<Judged>& rows, resolve::Model& model);

}  // namespace plyscribe::corpus

#endif  // PLYSCRIBE_CORPUS_FIT_CONFIDENCE_H_
