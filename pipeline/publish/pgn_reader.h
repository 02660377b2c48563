// Reads game files: PGN in the import format of the 1994 standard (section 3.1), every variation.
//
//   auto games = read_pgn(bytes, "lesson.pgn");
//   for (const PgnNode& n : (*games)[0].nodes) ...     // nodes[0] is the game's start position
//
// Tolerant of spelling: spacing, missing or odd move numbers, a missing result, lenient SAN, !? as
// NAGs, CRLF, a byte order mark, comments and escaped lines anywhere. Not tolerant of doubt: a move
// that is illegal or ambiguous, or brackets that don't pair, is an Error "NAME:LINE: expected ...".
// Cost: linear in the text; nesting uses no C++ stack.
#ifndef PLYSCRIBE_PUBLISH_PGN_READER_H_
#define PLYSCRIBE_PUBLISH_PGN_READER_H_

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "board/position.h"
#include "support/result.h"

namespace plyscribe::publish {

struct PgnNode {
  std::int32_t parent = -1;  // index into nodes, smaller than the node's own
  board::Move move;
  board::Position position;           // after the move
  std::vector<std::string> comments;  // behind the move; of nodes[0], before the first
  std::vector<int> nags;
};

struct PgnGame {
  std::vector<std::pair<std::string, std::string>> tags;  // as they stand
  std::vector<PgnNode> nodes;  // in the order of the movetext: as Step of line_order.h
  std::string result;          // "1-0", "0-1", "1/2-1/2", "*", or empty where it is missing

  std::string_view tag(std::string_view name) const;  // empty if there is none
};

Result<std::vector<PgnGame>> read_pgn(std::string_view text, std::string_view name);

}  // namespace plyscribe::publish

#endif  // PLYSCRIBE_PUBLISH_PGN_READER_H_
