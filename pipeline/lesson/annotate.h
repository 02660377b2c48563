// What was said about the moves, set beside them: judgements, advice, remarks, references.
//
//   Input: the lesson tree with its mentions, and the words. Output: the sayings of its nodes.
//
//   [4:20] ... Kf7, Nd5. That's a blunder.     $4 at Nd5, with the words "That's a blunder"
//   The only move is Re8                       $8 at Re8
//   Black is fine there                        $11 at the move that stood last on the board
//
// Which phrases say what, grammar/sayings.tsv holds. A phrase that holds no move speaks of the move
// named last, unless that is too long ago, or an idea stands between the two. "I", "we" and "you"
// are the side the lesson is for, "he" and "they" the other one.
//
// Cost: linear in the words.
#ifndef PLYSCRIBE_LESSON_ANNOTATE_H_
#define PLYSCRIBE_LESSON_ANNOTATE_H_

#include "lesson/lesson.h"
#include "transcript/transcript.h"

namespace plyscribe::lesson {

void annotate(const transcript::Transcript& transcript, Lesson& lesson);

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_ANNOTATE_H_
