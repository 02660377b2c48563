#include "lexicon/book.h"

#include <bit>
#include <cstring>
#include <string_view>

#include "embedded/book_bin.h"

namespace plyscribe::lexicon {
namespace {

using board::Color;
using board::Move;
using board::PieceType;
using board::Position;

constexpr int kBucketBits = 12;
constexpr std::size_t kIndexStart = 8, kDataStart = kIndexStart + 4 * ((1u << kBucketBits) + 1);

constexpr std::uint64_t mix(std::uint64_t x) {
  x += 0x9E3779B97F4A7C15u;
  x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9u;
  x = (x ^ (x >> 27)) * 0x94D049BB133111EBu;
  return x ^ (x >> 31);
}

template <typename T>
T read_at(std::size_t offset) {
  T out;
  std::memcpy(&out, embedded::book_bin.data() + offset, sizeof out);
  return out;
}
static_assert(std::endian::native == std::endian::little, "book.bin is read as it lies");

std::uint32_t read_varint(std::size_t& at) {
  std::uint32_t out = 0;
  for (unsigned shift = 0;; shift += 7) {
    const auto byte = read_at<std::uint8_t>(at++);
    out |= (byte & 127u) << shift;
    if (byte < 128) return out;
  }
}

std::uint16_t packed(Move m) {
  const int promotion =
      m.promotion() == PieceType::kNone
          ? 0
          : static_cast<int>(m.promotion()) - static_cast<int>(PieceType::kKnight) + 1;
  return static_cast<std::uint16_t>(m.from() | m.to() << 6 | promotion << 12);
}

}  // namespace

std::uint64_t book_key(const Position& p) {
  std::uint64_t key =
      mix(1000u + (p.side_to_move() == Color::kBlack ? 1u : 0u)) + mix(2000u + p.castling());
  for (board::Bitboard men = p.occupied(); men != 0; men &= men - 1) {
    const auto s = static_cast<board::Square>(std::countr_zero(men));
    const auto man = static_cast<unsigned>(p.type_at(s)) - static_cast<unsigned>(PieceType::kPawn) +
                     (p.color_at(s) == Color::kBlack ? 6u : 0u);
    key += mix(man * 64u + s);
  }
  return key;
}

std::vector<BookMove> book_moves(const Position& p) {
  const std::uint64_t key = book_key(p);
  const auto bucket = static_cast<std::size_t>(key >> (64 - kBucketBits));
  const auto rest = static_cast<std::uint32_t>(key >> (32 - kBucketBits));
  std::size_t at = kDataStart + read_at<std::uint32_t>(kIndexStart + 4 * bucket);
  const std::size_t end = kDataStart + read_at<std::uint32_t>(kIndexStart + 4 * bucket + 4);
  while (at < end) {
    const bool found = read_at<std::uint32_t>(at) == rest;
    at += 4;
    std::vector<BookMove> out;
    board::MoveList legal;
    if (found) p.legal_moves(legal);
    for (bool last = false; !last;) {
      const auto bits = read_at<std::uint16_t>(at);
      at += 2;
      last = (bits & 0x8000u) != 0;
      const std::uint32_t count = read_varint(at);
      for (const Move m : legal) {
        if (packed(m) == (bits & 0x7FFFu)) out.push_back({m, count});
      }
    }
    if (found) return out;
  }
  return {};
}

}  // namespace plyscribe::lexicon
