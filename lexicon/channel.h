// The sound channel: how likely a word recogniser is to hear what it heard, given what was said.
//
//   for (const Hearing& h : heard_as("they should")) ...   // bishop, cost 1.9, background 9.8
//   for (const Hearing& h : heard_as("before")) ...        // b 4, ...
//   sound_cost(pronounce("pawn")[0], pronounce("pond")[0]) // what the table has not seen: by sound
//
// All costs are nats, -log p. A reading is better than ordinary talk by background - cost;
// negative, it is worse. What a unit may be heard as sums to less than one: the rest is what was
// never seen. Two sources, for two needs: the table of whole words (heard.tsv) knows what really
// happens, with its language model's taste ("they should"); the phones (phones.tsv) answer for
// every pair of words. They are made by corpus/channel/fit.py; formats in en/README.md.
//
// Views and spans stay valid for the life of the program. First use reads the tables (a few
// milliseconds); after that a lookup is one hash of the words.
#ifndef PLYSCRIBE_LEXICON_CHANNEL_H_
#define PLYSCRIBE_LEXICON_CHANNEL_H_

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include "lexicon/pronounce.h"

namespace plyscribe::lexicon {

// A word that moves are spoken with: "knight", "f", "3", "takes", "to". Letters and digits are one
// character. The set is the table's own; ids are dense from 0, in the order of the names.
using Unit = std::uint8_t;
std::size_t unit_count();
std::string_view unit_name(Unit u);
std::optional<Unit> unit_named(std::string_view name);

// Some heard words, as what was said.
struct Hearing {
  std::array<Unit, 3> units{};
  std::uint8_t unit_count = 0;  // 1..3
  std::uint8_t word_count = 0;  // of the heard words, 0..3
  std::uint32_t count = 0;      // how often this was observed; at least 2
  std::uint32_t total = 0;      // how often the units were said at all
  float cost = 0;               // -log p(heard | units)
  float background = 0;         // -log p(heard) in ordinary talk, the words in this order
  std::string_view heard;       // words with one blank between; empty if they were not heard at all
  std::span<const Unit> said() const { return {units.data(), unit_count}; }
};

// words in lower case, one blank between. The cheapest first; empty if nothing is known.
// heard_as("") gives what is often not heard at all.
std::span<const Hearing> heard_as(std::string_view words);

std::span<const Hearing> all_hearings();  // by heard words, then cost

// -log p of a word in ordinary talk, general English and misheard talk together. A word outside
// the table gets the cost of a rare one.
float background_cost(std::string_view word);

struct PhoneCosts {
  std::array<std::array<float, kPhoneCount>, kPhoneCount> as{};  // as[said][heard]
  std::array<float, kPhoneCount> lost{};                         // said, not heard
  std::array<float, kPhoneCount> put_in{};  // heard at a place where nothing was said
};
const PhoneCosts& phone_costs();

// -log p(heard | said) by phones: the cheapest alignment. Time and space: product of the lengths,
// and one row.
float sound_cost(std::span<const Phone> said, std::span<const Phone> heard);

}  // namespace plyscribe::lexicon

#endif  // PLYSCRIBE_LEXICON_CHANNEL_H_
