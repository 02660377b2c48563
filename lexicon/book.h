// The master book: what was played in 112,255 positions, as a prior for what is meant.
//
//   for (BookMove m : book_moves(Position::initial())) ...   // e2e4 12135, d2d4 11257, ...
//
// Only legal moves are given, the most frequent first; nothing for a position that the book does
// not know. Cost: one key (a pass over the men), a short scan, and the legal moves if the position
// is known.
//
// The bytes (book.bin, made by make_book.py; little-endian):
//   "plybook1"
//   uint32 start[4097]   offset of each bucket's entries, from the end of this index
//   entries              sorted by key; the bucket is the key's top 12 bits
//     uint32 key bits 51..20
//     moves, each: uint16 from | to << 6 | promotion << 12 | last << 15, then the count as a varint
//                  (7 bits a byte, low first); promotion 0 none, 1 knight, 2 bishop, 3 rook, 4
//                  queen
//
// The key is the table's own, so that it outlives any change of Position::key(). With
// mix(x) the output of splitmix64 for the state x, it is the sum modulo 2^64 of
//   mix(man * 64 + square) for each man on the board (PNBRQKpnbrqk = 0..11; a1 = 0, b1 = 1, ...),
//   mix(1000 + black to move), and mix(2000 + castling rights: K 1, Q 2, k 4, q 8).
// 44 of its bits are compared: a wrong hit is a matter of one position in 150 million, and its
// moves would have to be legal.
#ifndef PLYSCRIBE_LEXICON_BOOK_H_
#define PLYSCRIBE_LEXICON_BOOK_H_

#include <cstdint>
#include <vector>

#include "board/position.h"

namespace plyscribe::lexicon {

struct BookMove {
  board::Move move;
  std::uint32_t count = 0;
};

std::vector<BookMove> book_moves(const board::Position& p);

std::uint64_t book_key(const board::Position& p);

}  // namespace plyscribe::lexicon

#endif  // PLYSCRIBE_LEXICON_BOOK_H_
