// How a written word sounds in American English.
//
//   pronounce("rook")  -> {R UH K}
//   pronounce("f5")    -> {EH F F AY V}          letters spelled, digits said
//   pronounce("86")    -> {EY T IY S IH K S}, {EY T S IH K S}
//   pronounce("Nimzo") -> {N IH M Z OW}          not in the dictionary: by letter-to-sound rules
//
// Every word has at least one pronunciation, unless it holds no letter and no digit. The likeliest
// comes first. Case, accents on Latin letters and marks around the word are ignored.
// Nothing is loaded: the dictionary is searched where it lies (about a microsecond a word).
//
// Order of trial: the dictionary; a possessive of a known word; hyphened and mixed words by their
// parts; numbers; letters that cannot be a word ("gh", "bxc") spelled; the rules.
#ifndef PLYSCRIBE_LEXICON_PRONOUNCE_H_
#define PLYSCRIBE_LEXICON_PRONOUNCE_H_

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace plyscribe::lexicon {

// Index into the 39 phones of the CMU dictionary in alphabetical order, stress left out.
using Phone = std::uint8_t;
constexpr std::size_t kPhoneCount = 39;
using Phones = std::vector<Phone>;

std::vector<Phones> pronounce(std::string_view word);

std::string_view phone_name(Phone p);  // "AA" ... "ZH"
std::optional<Phone> phone_named(std::string_view name);
Phones read_phones(std::string_view text);       // "EH F"; unknown names are left out
std::string write_phones(const Phones& phones);  // the reverse

}  // namespace plyscribe::lexicon

#endif  // PLYSCRIBE_LEXICON_PRONOUNCE_H_
