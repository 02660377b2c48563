// Positions and moves in text: FEN and SAN (PGN standard, sections 16.1 and 8.2.3), UCI move text.
//
// Reading a move tells three failures apart: unreadable, illegal, ambiguous; the message quotes the
// text and the position.
#ifndef PLYSCRIBE_BOARD_NOTATION_H_
#define PLYSCRIBE_BOARD_NOTATION_H_

#include <string>
#include <string_view>
#include <vector>

#include "board/position.h"
#include "support/result.h"

namespace plyscribe::board {

// All six fields (the last two may be missing). Rejects what no legal game could hold: not one king
// each, pawns on the end ranks, the side that is not to move in check, more than sixteen men or
// eight pawns a side, castling rights without king and rook at home, a senseless en-passant square.
Result<Position> parse_fen(std::string_view fen);
std::string to_fen(const Position& p);           // en-passant square only where a capture is legal
std::string to_fen_placement(const Position& p); // first three fields: placement, side, castling

// Export-format SAN, with + or #.
std::string to_san(const Position& p, Move m);
// Lenient: check marks, annotations (!?), 0-0, missing or superfluous x, = and disambiguation.
Result<Move> parse_san(const Position& p, std::string_view san);

std::string to_uci(Move m);
Result<Move> parse_uci(const Position& p, std::string_view uci);

// "1. e4 e5 2. Nf3" or "e4 e5 Nf3": moves from p; the error names the move that failed.
Result<std::vector<Move>> parse_line(const Position& p, std::string_view text);

}  // namespace plyscribe::board

#endif  // PLYSCRIBE_BOARD_NOTATION_H_
