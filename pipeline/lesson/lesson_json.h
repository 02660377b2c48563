// lesson.json: the lesson tree in a file, schema "plyscribe.lesson/1".
//
//   SPAN is  "t", "t_end", "first_word", "last_word", "heard";  SAYINGS are
//     "nags": [1..255], "judgements": [ { SPAN, "nag" } ],
//     "advice": null|ADVICE, "counsels": [ { SPAN, "advice": ADVICE } ], "remarks": [ { SPAN } ]
//   with ADVICE "recommended", "playable", "avoided" or "for completeness".
//
//   { "schema": "plyscribe.lesson/1", "title", "media", "duration", "side": "white"|"black",
//     "start": { "fen", "moves": [SAN], "how", "name", "confidence", SAYINGS },
//     "nodes": [ { "id": 1, "parent": 0, "san", "uci", "fen", "t", "status", "confidence",
//                  "unsaid", "mentions": [ { SPAN, "said", "revisit", "confidence" } ],
//                  "alternatives": [ { "san", "confidence" } ], SAYINGS } ],
//     "ideas":   [ { SPAN, "node", "san" or "text", "confidence" } ],
//     "loose":   [ { SPAN, "why" } ],
//     "credits": [ { SPAN, "player", "opponent", "event", "year", "node" } ],
//     "references": [ { SPAN } ], "corrections": [ { SPAN } ],
//     "chapters":   [ { "t", "title", "node" } ] }
//
// Sayings, "references", "corrections" and an idea's confidence may be missing, as in files written
// before they were known; there, "advice" may be "discouraged", a remark plain text, a credit
// { "t", "t_end", "text" } and a chapter without node.
//
// A mention or idea that a person settled by a pin has "settled": true besides.
// Parent and node 0 are the start position; "fen" is after the move. Times are seconds, written to
// 1/100; confidences 0..1, to 1/10000. Words are [first_word, last_word) of the transcript.
// Writing is deterministic: the same lesson gives the same bytes, keys in the order above.
#ifndef PLYSCRIBE_LESSON_LESSON_JSON_H_
#define PLYSCRIBE_LESSON_LESSON_JSON_H_

#include <string>
#include <string_view>

#include "lesson/lesson.h"
#include "support/result.h"

namespace plyscribe::lesson {

std::string write_json(const Lesson& lesson);

// Checks every move and position again, so a Lesson that was read is as legal as one that was
// built. Keys it doesn't know are skipped. Errors: "NAME:PLACE: expected ...", PLACE a line or the
// path of a value, as in "lesson.json:nodes[3].uci: expected ...".
Result<Lesson> read_json(std::string_view text, std::string_view name);

}  // namespace plyscribe::lesson

#endif  // PLYSCRIBE_LESSON_LESSON_JSON_H_
