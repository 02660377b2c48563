// The model of the page, as JSON.
//
// What stays while the page is open (schema "plyscribe.page/1"):
//
//   { "schema", "title", "file", "pins_file", "served": bool, "duration", "media": ""|address,
//     "words": [text], "marks": [[word, before, behind]], "starts": [s], "ends": [s],
//     "paragraphs": [first word],
//     "state": { ... } }
//
// and the state, which each correction makes anew:
//
//   { "revision": n, "side": "white"|"black",
//     "start": { "fen", "moves": [SAN], "how", "name", "confidence" },
//     "nodes": [ [parent, uci, san, status, confidence, unsaid 0|1, t, sayings] ],
//                node 1 first; sayings: [[first, last]], the words that judge, advise or remark
//     "mentions": [ { "first", "last", "act", "node", "said", "status", "confidence",
//                     "alternatives": [[san, share]], "why", "settled": bool } ],
//     "chapters": [ [t, title] ],
//     "queue": [ { "kind": "start"|"pin"|"mention", "mention", "pin", "below", "effect",
//                  "reason" } ],
//     "pins": the pins file (lesson/pins.h), "unheld": [ { "pin", "why" } ],
//     "changes": null | { "nodes": [id], "gone", "start",
//                         "mentions": [ { "first", "last", "was", "now" } ] },
//     "undo": n, "redo": n }
//
// Words are the recogniser's, the marks around them apart; nothing in here is markup.
#ifndef PLYSCRIBE_REVIEW_PAGE_DATA_H_
#define PLYSCRIBE_REVIEW_PAGE_DATA_H_

#include <string>

#include "lesson/lesson.h"
#include "lesson/pins.h"
#include "resolve/decoding.h"
#include "review/changes.h"
#include "review/queue.h"
#include "transcript/transcript.h"

namespace plyscribe::review {

struct StateData {
  const resolve::Decoding& decoding;
  const lesson::Lesson& lesson;
  const lesson::Pins& pins;
  const std::vector<Item>& queue;
  const Changes* changes = nullptr;  // what the last correction did
  std::size_t revision = 0, undo = 0, redo = 0;
};

std::string write_state(const StateData& state);

struct PageData {
  std::string title, file, pins_file, media;
  bool served = false;  // by the program, which decodes again; else a page from disk
};

// state: what write_state returned.
std::string write_page(const PageData& page, const transcript::Transcript& transcript,
                       const std::string& state);

}  // namespace plyscribe::review

#endif  // PLYSCRIBE_REVIEW_PAGE_DATA_H_
