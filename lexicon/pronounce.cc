#include "lexicon/pronounce.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "embedded/letters_tsv.h"
#include "embedded/pronunciations_tsv.h"
#include "lexicon/lines.h"
#include "lexicon/spell_number.h"

namespace plyscribe::lexicon {
namespace {

constexpr std::array<std::string_view, kPhoneCount> kNames = {
    "AA", "AE", "AH", "AO", "AW", "AY", "B",  "CH", "D", "DH", "EH", "ER", "EY",
    "F",  "G",  "HH", "IH", "IY", "JH", "K",  "L",  "M", "N",  "NG", "OW", "OY",
    "P",  "R",  "S",  "SH", "T",  "TH", "UH", "UW", "V", "W",  "Y",  "Z",  "ZH"};
// One character a phone, as in the data files.
constexpr std::string_view kSymbols = "a@AcqIbCdDERefghiyJklmnNOQprsStTUuvwYzZ";
static_assert(kSymbols.size() == kPhoneCount);

// The names of the letters, said one by one.
constexpr std::array<std::string_view, 26> kLetters = {"EY",
                                                       "B IY",
                                                       "S IY",
                                                       "D IY",
                                                       "IY",
                                                       "EH F",
                                                       "JH IY",
                                                       "EY CH",
                                                       "AY",
                                                       "JH EY",
                                                       "K EY",
                                                       "EH L",
                                                       "EH M",
                                                       "EH N",
                                                       "OW",
                                                       "P IY",
                                                       "K Y UW",
                                                       "AA R",
                                                       "EH S",
                                                       "T IY",
                                                       "Y UW",
                                                       "V IY",
                                                       "D AH B AH L Y UW",
                                                       "EH K S",
                                                       "W AY",
                                                       "Z IY"};

// Contexts of a letter-to-sound rule, letters to the left and right, as CONTEXTS in
// make_pronunciations.py but the strongest first.
constexpr std::array<std::pair<int, int>, 14> kContexts = {{{4, 1},
                                                            {1, 4},
                                                            {3, 3},
                                                            {3, 2},
                                                            {2, 3},
                                                            {1, 3},
                                                            {2, 2},
                                                            {2, 1},
                                                            {1, 2},
                                                            {0, 2},
                                                            {1, 1},
                                                            {1, 0},
                                                            {0, 1},
                                                            {0, 0}}};

using Ways = std::vector<Phones>;
constexpr std::size_t kMostWays = 4;

bool is_letter(char c) { return c >= 'a' && c <= 'z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

Phones from_symbols(std::string_view symbols) {
  Phones out;
  for (const char c : symbols) {
    if (const std::size_t at = kSymbols.find(c); at != std::string_view::npos)
      out.push_back(static_cast<Phone>(at));
  }
  return out;
}

void append(Phones& head, const Phones& tail) { head.insert(head.end(), tail.begin(), tail.end()); }

void add(Ways& ways, Phones way) {
  if (!way.empty() && std::find(ways.begin(), ways.end(), way) == ways.end())
    ways.push_back(std::move(way));
}

// Each way of the head with each way of the tail, as many as are worth keeping.
Ways followed_by(const Ways& head, const Ways& tail) {
  if (head.empty()) return tail;
  if (tail.empty()) return head;
  Ways out;
  for (const Phones& t : tail) {
    for (const Phones& h : head) {
      if (out.size() == kMostWays) return out;
      Phones both = h;
      append(both, t);
      add(out, std::move(both));
    }
  }
  return out;
}

// The Latin letters of U+00C0..U+017F without their marks; '*' stands for what is none.
constexpr std::string_view kBase =
    "aaaaaaaceeeeiiiidnooooo*ouuuuytsaaaaaaaceeeeiiiidnooooo*ouuuuyty"
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkkllllllllll"
    "nnnnnnnnnoooooooorrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";
static_assert(kBase.size() == 0x180 - 0xC0);

// Lower case, accents off, curly apostrophes straight, what is not known dropped, and marks at both
// ends cut away.
std::string normal(std::string_view word) {
  std::string out;
  for (std::size_t i = 0; i < word.size(); ++i) {
    const auto c = static_cast<unsigned char>(word[i]);
    if (c < 128) {
      out += static_cast<char>(std::tolower(c));
    } else if (c >= 0xC3 && c <= 0xC5 && i + 1 < word.size()) {
      const unsigned code = (c & 31u) << 6 | (static_cast<unsigned char>(word[++i]) & 63u);
      if (code >= 0xC0 && kBase[code - 0xC0] != '*') out += kBase[code - 0xC0];
    } else if (word.substr(i).starts_with("\u2019")) {
      out += '\'';
      i += 2;
    } else if (word.substr(i).starts_with("\u2010") || word.substr(i).starts_with("\u2011") ||
               word.substr(i).starts_with("\u2013") || word.substr(i).starts_with("\u2014")) {
      out += '-';
      i += 2;
    }
  }
  const auto kept = [](char c) { return is_letter(c) || is_digit(c) || c == '\''; };
  while (!out.empty() && !kept(out.back())) out.pop_back();
  const auto first = std::find_if(out.begin(), out.end(), kept);
  out.erase(out.begin(), first);
  return out;
}

Ways in_dictionary(std::string_view word) {
  Ways out;
  std::string_view found = find_line(embedded::pronunciations_tsv, word);
  while (!found.empty()) add(out, from_symbols(take_until(found, ' ')));
  return out;
}

Phones spelled(std::string_view letters) {
  Phones out;
  for (const char c : letters) {
    if (is_letter(c)) append(out, read_phones(kLetters[static_cast<std::size_t>(c - 'a')]));
  }
  return out;
}

Phones by_rules(std::string_view letters) {
  const std::string padded = "####" + std::string(letters) + "####";
  Phones out;
  std::string context;
  for (std::size_t i = 4; i + 4 < padded.size(); ++i) {
    for (const auto& [left, right] : kContexts) {
      context.assign(padded, i - static_cast<std::size_t>(left), static_cast<std::size_t>(left));
      context += '.';
      context += padded[i];
      context += '.';
      context.append(padded, i + 1, static_cast<std::size_t>(right));
      const std::string_view sound = find_line(embedded::letters_tsv, context);
      if (sound.data() == nullptr) continue;
      append(out, from_symbols(sound));
      break;
    }
  }
  return out;
}

Ways ways_of(std::string_view word);

Ways of_letters(std::string_view word) {
  if (word.size() == 1) {  // the letter's name; "a" is a word as well
    Ways out;
    add(out, spelled(word));
    for (Phones& way : in_dictionary(word)) add(out, std::move(way));
    return out;
  }
  if (Ways out = in_dictionary(word); !out.empty()) return out;
  if (word.ends_with("'s") || word.ends_with("s'")) {
    const bool plural = word.ends_with("s'");
    Ways out = ways_of(word.substr(0, word.size() - (plural ? 1 : 2)));
    for (Phones& way : out) {
      if (plural || way.empty()) continue;
      const std::string_view last = phone_name(way.back());
      const auto ends = [last](std::initializer_list<std::string_view> list) {
        return std::find(list.begin(), list.end(), last) != list.end();
      };
      if (ends({"S", "Z", "SH", "ZH", "CH", "JH"})) {
        append(way, read_phones("IH Z"));
      } else {
        append(way, read_phones(ends({"P", "T", "K", "F", "TH"}) ? "S" : "Z"));
      }
    }
    return out;
  }
  std::string letters(word);
  std::erase(letters, '\'');
  Ways out;
  if (letters.find_first_of("aeiouy") == std::string::npos || letters.size() < 3)
    add(out, spelled(letters));
  if (letters.find_first_of("aeiouy") != std::string::npos) add(out, by_rules(letters));
  return out;
}

Ways of_digits(std::string_view digits) {
  Ways out;
  for (const std::string& said : spell_number(digits)) {
    Phones way;
    std::string_view rest = said;
    while (!rest.empty()) {
      if (const Ways word = in_dictionary(take_until(rest, ' ')); !word.empty())
        append(way, word.front());
    }
    add(out, std::move(way));
  }
  return out;
}

// word is normal: letters, digits, apostrophes, and whatever marks lie between.
Ways ways_of(std::string_view word) {
  if (std::all_of(word.begin(), word.end(), [](char c) { return is_letter(c) || c == '\''; }))
    return of_letters(word);
  Ways out;
  const bool mixed = std::any_of(word.begin(), word.end(), is_digit);
  for (std::size_t i = 0; i < word.size();) {
    std::size_t end = i;
    while (end < word.size() && is_digit(word[end])) ++end;
    if (end > i) {
      out = followed_by(out, of_digits(word.substr(i, end - i)));
      i = end;
      continue;
    }
    while (end < word.size() && (is_letter(word[end]) || word[end] == '\'')) ++end;
    std::string_view part = word.substr(i, end - i);
    if (!part.empty() && mixed) {
      // Beside digits, letters are letters, unless a word is glued to them: "bishopg5", "knightf".
      std::size_t n = part.size();
      while (n > 3 && in_dictionary(part.substr(0, n)).empty()) --n;
      if (n > 3) {
        out = followed_by(out, in_dictionary(part.substr(0, n)));
        part.remove_prefix(n);
      }
      if (!part.empty()) out = followed_by(out, {spelled(part)});
    } else if (!part.empty()) {
      out = followed_by(out, of_letters(part));
    }
    i = std::max(end, i + 1);  // past the part, or over one mark
  }
  return out;
}

}  // namespace

std::vector<Phones> pronounce(std::string_view word) { return ways_of(normal(word)); }

std::string_view phone_name(Phone p) { return kNames[p]; }

std::optional<Phone> phone_named(std::string_view name) {
  const auto at = std::lower_bound(kNames.begin(), kNames.end(), name);
  if (at == kNames.end() || *at != name) return std::nullopt;
  return static_cast<Phone>(at - kNames.begin());
}

Phones read_phones(std::string_view text) {
  Phones out;
  while (!text.empty()) {
    if (const auto phone = phone_named(take_until(text, ' '))) out.push_back(*phone);
  }
  return out;
}

std::string write_phones(const Phones& phones) {
  std::string out;
  for (const Phone p : phones) {
    if (!out.empty()) out += ' ';
    out += phone_name(p);
  }
  return out;
}

}  // namespace plyscribe::lexicon
