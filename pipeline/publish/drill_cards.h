// Drill cards: one for each decision of the lesson's side, as rows of a table.
//
//   fen  line  diagram                    move      why                        basis    time  link
//   ...  1. e4 cards/0f3c...9a.svg  1... e5   "what I play"; not 1... f6  advised  0:42  https:...
//   \---------- front ----------/   \---------------------- back -------------------------------/
//
// A position makes one card, however many lines reach it (decisions.h), and its picture is named by
// the position, so the cards of two lessons can lie in one folder. basis is "advised" where the
// lecturer recommends a move, and "shown" where he recommends none but shows one move only. Where
// he shows several and recommends none, where his advice contradicts itself, and where the move or
// the way to it is not certain, there is no card: gaps() says so. A learner must not drill a guess.
//
// Tab-separated values, one row a line, the first row names the columns. A cell holds no tab and no
// line break, and none is taken for a formula by a spreadsheet.
#ifndef PLYSCRIBE_PUBLISH_DRILL_CARDS_H_
#define PLYSCRIBE_PUBLISH_DRILL_CARDS_H_

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "lesson/lesson.h"
#include "publish/kind.h"

namespace plyscribe::publish {

std::vector<Output> write_cards(const lesson::Lesson& lesson, const Link& link);

enum class Lack : std::uint8_t { kAdvice, kAgreement, kCertainty };

struct Gap {
  lesson::NodeId at = 0;  // the position for which there is no card
  Lack lack = Lack::kAdvice;
};
std::vector<Gap> gaps(const lesson::Lesson& lesson);

// Text that may stand between tabs.
std::string cell(std::string_view text);

extern const Kind kCardsKind;  // "cards": cards.tsv, cards/*.svg

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_DRILL_CARDS_H_
