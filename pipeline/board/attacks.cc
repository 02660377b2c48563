#include "board/attacks.h"

namespace plyscribe::board {
namespace {

struct Step {
  int file, rank;
};
constexpr Step kBishopSteps[4] = {{1, 1}, {-1, 1}, {-1, -1}, {1, -1}};
constexpr Step kRookSteps[4] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
constexpr Step kKnightSteps[8] = {{1, 2},   {2, 1},   {2, -1}, {1, -2},
                                  {-1, -2}, {-2, -1}, {-2, 1}, {-1, 2}};

constexpr bool on_board(int file, int rank) {
  return file >= 0 && file < 8 && rank >= 0 && rank < 8;
}

// From s in one direction, stopping on the first occupied square.
constexpr Bitboard ray(Square s, Step step, Bitboard occupied) {
  Bitboard reached = 0;
  int file = file_of(s) + step.file, rank = rank_of(s) + step.rank;
  while (on_board(file, rank)) {
    const Bitboard b = bit(make_square(file, rank));
    reached |= b;
    if (occupied & b) break;
    file += step.file;
    rank += step.rank;
  }
  return reached;
}

constexpr Bitboard one_step(Square s, Step step) {
  const int file = file_of(s) + step.file, rank = rank_of(s) + step.rank;
  return on_board(file, rank) ? bit(make_square(file, rank)) : 0;
}

constexpr Step opposite(Step s) { return {-s.file, -s.rank}; }

constexpr void fill_lines(FixedTables& t, Square a, Step step) {
  const Bitboard whole = ray(a, step, 0) | ray(a, opposite(step), 0) | bit(a);
  Bitboard passed = 0;
  int file = file_of(a) + step.file, rank = rank_of(a) + step.rank;
  while (on_board(file, rank)) {
    const Square b = make_square(file, rank);
    t.between[a][b] = passed;
    t.line[a][b] = whole;
    passed |= bit(b);
    file += step.file;
    rank += step.rank;
  }
}

constexpr FixedTables make_fixed() {
  FixedTables t;
  for (Square s = 0; s < 64; ++s) {
    for (Step step : kKnightSteps) t.knight[s] |= one_step(s, step);
    for (Step step : kBishopSteps) {
      t.king[s] |= one_step(s, step);
      t.bishop_rays[s] |= ray(s, step, 0);
      fill_lines(t, s, step);
    }
    for (Step step : kRookSteps) {
      t.king[s] |= one_step(s, step);
      t.rook_rays[s] |= ray(s, step, 0);
      fill_lines(t, s, step);
    }
    t.pawn[0][s] = one_step(s, {1, 1}) | one_step(s, {-1, 1});
    t.pawn[1][s] = one_step(s, {1, -1}) | one_step(s, {-1, -1});
    t.rising[s] = bit(s) | ray(s, {1, 1}, 0) | ray(s, {-1, -1}, 0);
    t.falling[s] = bit(s) | ray(s, {1, -1}, 0) | ray(s, {-1, 1}, 0);
  }
  return t;
}

// The magic multipliers come from a random search of our own (sparse SplitMix64 words).
#ifndef __BMI2__
constexpr Bitboard kBishopMagics[64] = {
    0x11046040870a0880, 0x1010500080908258, 0x0010210041080508, 0x1204040088010000,
    0x3042021008a00940, 0x18020804040ca882, 0x6000920802400001, 0x828200249a101024,
    0x4121081101080908, 0x0880b01082004048, 0x0030088084008824, 0x0000880845001000,
    0x10240c5040800882, 0x14a1061212202041, 0x000c140404028a00, 0x87086026080c4410,
    0x0010080444081804, 0x0020001002420040, 0x2818004102022203, 0x9010210804801000,
    0x2204000880a04248, 0x7021000200808401, 0x0080400202100430, 0x0001280092011000,
    0x2208c022a0040182, 0x1001200090040128, 0x0128080004004414, 0x0008080109220020,
    0x5001080501004000, 0x000928c002005000, 0x8602008004040180, 0x0004002500808400,
    0x00082008800408a0, 0x00009010006802c8, 0x2a04014420080120, 0x01000401080c0100,
    0x00c0004100201100, 0x0402004105020080, 0x0002480040010400, 0x000a004101b24408,
    0x404421201080080a, 0x6040840421000280, 0x00840c0402081c00, 0xa042082018002104,
    0x5820040810120204, 0x2020820842008840, 0x0010040100400410, 0x8010011a20200081,
    0x5b40844120100318, 0x0080220844042040, 0x1020008201411012, 0x0100240a84044204,
    0x130800400832021a, 0x804804600c0c4000, 0x80c0420204010800, 0xa020042400802280,
    0x8002208410081ac4, 0x01080208440c2440, 0xa018140084208808, 0x880014000420a804,
    0x4021028020025400, 0x0000042020d20a20, 0x0a18241408480304, 0x02284208a4010201,
};
constexpr Bitboard kRookMagics[64] = {
    0x31800080c0002150, 0x014000c010012000, 0x0880200210000880, 0x0880100008000480,
    0x4280020800801c00, 0xc600010804420090, 0x4200040840810200, 0x0100042880450002,
    0x0080800020804002, 0x0263004005008028, 0x2c01002001081042, 0x800180480080d000,
    0x0020800400080081, 0x0a0900082401000e, 0x4282000200088164, 0x0020800100004080,
    0x0040008000204080, 0x00101140004a2001, 0x0800808010002000, 0x10420200100a4020,
    0x0080808008000400, 0x0004004002004100, 0x28800c0002980530, 0x028802000840810c,
    0x0000400480048262, 0x0120100040004020, 0x0601001100200040, 0x0808000880801000,
    0x2020040080800800, 0x0040020080040080, 0x088100a100140200, 0x4c00024200240289,
    0x8208401820800081, 0x0018402000401000, 0x0000100080802004, 0x0188080080801000,
    0x0000800400800802, 0x0000800200800401, 0x6200021004000108, 0x1008040082000041,
    0x0000802040008000, 0x2231020080220040, 0x1010080400202000, 0x0010008100080800,
    0x0008000402004040, 0x0000040002008080, 0x4013001200310044, 0x003001214b820004,
    0x800a412510800100, 0x0040201006400440, 0x8040100480200680, 0x0000090010002500,
    0x8088000804028080, 0x2044000200410040, 0x010010c802112400, 0x0212290040840200,
    0x0012104021008003, 0x0020804011020022, 0x0100110040082001, 0x440600a041040812,
    0x0002004448a01002, 0x000200081009049e, 0x0010286110020084, 0x0200018400224d02,
};
#endif

// Sum over all squares of 2^(bits in mask).
constexpr int kBishopTableSize = 5248, kRookTableSize = 102400;
Bitboard slider_storage[kBishopTableSize + kRookTableSize];

constexpr Bitboard slide(Square s, const Step (&steps)[4], Bitboard occupied) {
  Bitboard reached = 0;
  for (Step step : steps) reached |= ray(s, step, occupied);
  return reached;
}

// The last square of each ray never matters: the ray ends there anyway.
constexpr Bitboard relevant(Square s, const Step (&steps)[4]) {
  const Bitboard edges = ((rank_mask(0) | rank_mask(7)) & ~rank_mask(rank_of(s))) |
                         ((file_mask(0) | file_mask(7)) & ~file_mask(file_of(s)));
  return slide(s, steps, 0) & ~edges;
}

// Fills one entry and its part of the table; returns where the next part starts.
Bitboard* fill(SliderEntry& e, Square s, const Step (&steps)[4], Bitboard* table) {
  e.attacks = table;
  Bitboard subset = 0;
  do {  // every subset of the mask, by carry-rippling
    table[e.index(subset)] = slide(s, steps, subset);
    subset = (subset - e.mask) & e.mask;
  } while (subset != 0);
  return table + (std::size_t{1} << std::popcount(e.mask));
}

}  // namespace

constinit const FixedTables kFixed = make_fixed();

SliderTables::SliderTables() {
  Bitboard* table = slider_storage;
  for (Square s = 0; s < 64; ++s) {
    bishop[s].mask = relevant(s, kBishopSteps);
    rook[s].mask = relevant(s, kRookSteps);
#ifndef __BMI2__
    bishop[s].magic = kBishopMagics[s];
    bishop[s].shift = 64U - static_cast<unsigned>(std::popcount(bishop[s].mask));
    rook[s].magic = kRookMagics[s];
    rook[s].shift = 64U - static_cast<unsigned>(std::popcount(rook[s].mask));
#endif
    table = fill(bishop[s], s, kBishopSteps, table);
    table = fill(rook[s], s, kRookSteps, table);
  }
}

[[gnu::init_priority(101)]] const SliderTables kSliders;

}  // namespace plyscribe::board
