#include "resolve/opening_names.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <set>
#include <span>
#include <unordered_map>
#include <unordered_set>

#include "lexicon/channel.h"
#include "lexicon/openings.h"
#include "lexicon/pronounce.h"

namespace plyscribe::resolve {
namespace {

using hearing::Lattice;

// Letters and digits, lower case; umlauts as the table spells them ("Grünfeld", "gruenfeld"), other
// accents fall away.
std::string folded(std::string_view s) {
  if (s == "night" || s == "nights") return "k" + std::string(s);
  std::string out;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const char c = s[i];
    if (std::isalnum(static_cast<unsigned char>(c)) != 0) {
      out.push_back(static_cast<char>(std::tolower(static_cast<unsigned char>(c))));
    } else if (c == '\xC3' && i + 1 < s.size()) {
      const auto low = static_cast<unsigned char>(s[++i]) | 0x20U;
      if (low == 0xA4)
        out += "a";
      else if (low == 0xB6)
        out += "oe";
      else if (low == 0xBC)
        out += "ue";
      else if (low >= 0xA8 && low <= 0xAB)
        out += "e";
      else if (low >= 0xA0 && low <= 0xA5)
        out += "a";
    }
  }
  return out;
}

const lexicon::Phones& phones_of(const std::string& word) {  // pronounced once each
  thread_local std::unordered_map<std::string, lexicon::Phones> known;
  const auto [it, added] = known.try_emplace(word);
  if (added) {
    auto all = lexicon::pronounce(word);
    if (!all.empty()) it->second = std::move(all[0]);
  }
  return it->second;
}

// Words of names that every lesson has anyway.
bool everyday(const std::string& w) {
  static const std::unordered_set<std::string> words = {
      "king",   "kings",       "queen",    "queens",   "rook",     "bishop",     "bishops",
      "knight", "knights",     "pawns",    "two",      "three",    "four",       "five",
      "six",    "old",         "main",     "white",    "black",    "classical",  "modern",
      "normal", "open",        "closed",   "short",    "long",     "quiet",      "trap",
      "gambit", "gambits",     "centre",   "castling", "check",    "positional", "free",
      "fried",  "symmetrical", "accepted", "declined", "move",     "early",      "young",
      "lesser", "improved",    "double",   "hanging",  "strategy", "without",    "half",
      "attack", "with",        "pawn"};
  return words.count(w) != 0 || (w.size() <= 3 && w.find_first_of("12345678") != std::string::npos);
}

std::size_t letters_apart(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t corner = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
      corner = row[j];
      row[j] = std::min({change, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row[b.size()];
}

}  // namespace

std::vector<std::string> name_words(std::string_view name) {
  static const std::unordered_set<std::string> dull = {
      "variation", "defence", "defense", "opening", "attack", "game", "line", "system", "the",
      "with",      "and",     "from",    "of",      "in",     "or",   "pawn", "s",      "counter"};
  std::vector<std::string> out;
  std::string word;
  for (std::size_t i = 0; i <= name.size(); ++i) {
    if (i < name.size() && (std::isalnum(static_cast<unsigned char>(name[i])) != 0 ||
                            static_cast<unsigned char>(name[i]) >= 128)) {
      word.push_back(static_cast<char>(std::tolower(static_cast<unsigned char>(name[i]))));
    } else {
      if (i < name.size() && name[i] == '\'') continue;
      std::string plain = folded(word);
      if (plain.size() >= 3 && dull.count(plain) == 0) out.push_back(plain);
      word.clear();
    }
  }
  return out;
}

float likeness(const std::string& said, const std::string& heard) {
  if (said == heard) return 1;
  if (said.size() < 4 || heard.size() < 3 || everyday(said) || everyday(heard)) return 0;
  std::size_t same = 0;
  while (same < said.size() && same < heard.size() && said[same] == heard[same]) ++same;
  if (same >= 5 && same * 3 + 5 >= heard.size() * 2) return 0.8F;  // "catalonian"
  if (said.size() < 5 || heard.size() > said.size() + 4 || said.size() > heard.size() + 4) return 0;
  float spelled = 0;
  if (said.size() >= 6 && heard.size() >= 5 && said[0] == heard[0]) {
    spelled = 1.0F - 1.2F * static_cast<float>(letters_apart(said, heard)) /
                         static_cast<float>(said.size());
    if (spelled < 0.6F) spelled = 0;
  }
  const lexicon::Phones& a = phones_of(said);
  const lexicon::Phones& b = phones_of(heard);
  if (a.size() < 4 || b.empty() || a.size() > b.size() + 3 || b.size() > a.size() + 3) {
    return spelled;
  }
  // Most of the sounds must be there at all, before their order is looked into.
  std::array<std::int8_t, lexicon::kPhoneCount> count{};
  for (const lexicon::Phone p : a) ++count[p];
  std::size_t shared = 0;
  for (const lexicon::Phone p : b) shared += count[p]-- > 0 ? 1 : 0;
  const std::size_t longer = std::max(a.size(), b.size());
  if (shared * 5 < longer * 2) return spelled;
  const float cost = lexicon::sound_cost(a, b) - lexicon::sound_cost(a, a);
  const float per_phone = cost / static_cast<float>(longer);
  return std::max(spelled, per_phone < 0.9F ? 1.0F - 0.8F * per_phone : 0.0F);
}

namespace {

// Listens for phrases of names in a stream of sounds, whatever words the recogniser cut it into.
class Listener {
 public:
  Listener(const Lattice& lattice, std::size_t introduction) {
    const std::size_t n = std::min(lattice.tokens.size(), introduction);
    for (std::size_t t = 0; t < n; ++t) {
      const std::string& word = lattice.tokens[t].norm;
      phones_.push_back(phones_of(word));
      // Words of moves are said all the time and name nothing.
      const bool common = move_words().count(word) != 0;
      background_.push_back(std::min(lexicon::background_cost(word), common ? kMoveWord : 99.0F));
    }
  }

  // Nats by which the best stretch of the talk is better taken as the phrase than as talk.
  float gain(const lexicon::Phones& phrase) const {
    float best = -100;
    std::array<int, lexicon::kPhoneCount> wanted{};
    for (const lexicon::Phone p : phrase) ++wanted[p];
    lexicon::Phones heard;
    for (std::size_t first = 0; first < phones_.size(); ++first) {
      heard.clear();
      float background = 0;
      for (std::size_t last = first; last < std::min(phones_.size(), first + 6); ++last) {
        heard.insert(heard.end(), phones_[last].begin(), phones_[last].end());
        background += background_[last];
        if (heard.size() * 10 < phrase.size() * 6) continue;
        if (heard.size() * 6 > phrase.size() * 10) break;
        auto left = wanted;
        std::size_t shared = 0;
        for (const lexicon::Phone p : heard) shared += left[p]-- > 0 ? 1 : 0;
        if (shared * 5 < std::max(heard.size(), phrase.size()) * 2) continue;
        best = std::max(best, background - lexicon::sound_cost(phrase, heard));
      }
    }
    return best;
  }

 private:
  static constexpr float kMoveWord = 2.5F;
  static const std::unordered_set<std::string>& move_words() {
    static const std::unordered_set<std::string> words = {
        "pawn",  "pawns", "pond",   "ponds", "knight", "night", "bishop", "rook",
        "queen", "king",  "castle", "takes", "check",  "move",  "moves",  "white",
        "black", "on",    "two",    "to",    "three",  "four",  "five",   "six",
        "seven", "eight", "one",    "be",    "see",    "he",    "she",    "a"};
    return words;
  }
  std::vector<lexicon::Phones> phones_;
  std::vector<float> background_;
};

// A gain in nats, among some thousand phrases tried at a hundred places, as a likeness.
float likeness_of_gain(float gain) { return std::clamp((gain - 2.5F) / 7.0F, 0.0F, 1.0F); }

constexpr float kSpelled = 0.7F;          // likeness of a name in letters
constexpr float kRare = 8;                // nats: words as common as "position" name nothing
constexpr std::size_t kManyFamilies = 3;  // with a branch of one name: it tells none of them

// The table's names by words, made once.
struct NameTable {
  struct Name {
    std::size_t opening = 0;
    std::string text;
    std::vector<std::uint32_t> words;  // of the vocabulary
    std::size_t family = 0;            // so many of them stand before the first comma
  };
  std::vector<Name> names;  // the table's own and what else they are called
  // Two or three words in a row, as they are spoken; which words of the vocabulary are in them.
  struct Phrase {
    lexicon::Phones phones;
    std::vector<std::uint32_t> words;
  };
  std::vector<Phrase> phrases;
  std::vector<std::string> vocabulary;
  std::vector<float> weights;
  // A word of the vocabulary that tells what opening it is. Not "advance", which many have.
  std::vector<bool> telling;

  NameTable() {
    std::unordered_map<std::string, std::uint32_t> ids;
    std::vector<int> count;
    const auto openings = lexicon::openings();
    for (std::size_t i = 0; i < openings.size(); ++i) {
      const std::string_view name = openings[i].name;
      names.push_back({i, std::string(name), {}, 0});
      for (const lexicon::OpeningAlias& a : lexicon::opening_aliases()) {
        if (!name.starts_with(a.table)) continue;
        names.push_back({i, std::string(a.also) + std::string(name.substr(a.table.size())), {}, 0});
      }
    }
    for (Name& name : names) {
      name.family = name_words(name.text.substr(0, name.text.find(','))).size();
      for (std::string& w : name_words(name.text)) {
        const auto [it, added] = ids.try_emplace(w, static_cast<std::uint32_t>(vocabulary.size()));
        if (added) {
          vocabulary.push_back(std::move(w));
          count.push_back(0);
        }
        ++count[it->second];
        name.words.push_back(it->second);
      }
    }
    collect_phrases(ids);
    find_telling();
    const auto all = static_cast<float>(names.size());
    for (std::size_t i = 0; i < vocabulary.size(); ++i) {
      const float idf = std::log(all / static_cast<float>(count[i])) / 4.0F;
      weights.push_back(everyday(vocabulary[i]) ? 0.25F : std::clamp(idf, 0.6F, 1.4F));
    }
  }

 private:
  void find_telling() {
    std::vector<std::set<std::uint32_t>> branch_of(
        vocabulary.size());  // by first words of families
    telling.assign(vocabulary.size(), false);
    for (const Name& name : names) {
      for (std::size_t i = 0; i < name.words.size(); ++i) {
        if (i < name.family) {
          telling[name.words[i]] = true;
        } else if (name.family > 0) {
          branch_of[name.words[i]].insert(name.words[0]);
        }
      }
    }
    for (std::size_t i = 0; i < vocabulary.size(); ++i) {
      if (everyday(vocabulary[i]) || lexicon::background_cost(vocabulary[i]) <= kRare) {
        telling[i] = false;
      } else if (branch_of[i].size() < kManyFamilies) {
        telling[i] = true;
      }
    }
  }

  void collect_phrases(const std::unordered_map<std::string, std::uint32_t>& ids) {
    std::unordered_set<std::string> known;
    for (const Name& name : names) {
      const std::string& text = name.text;
      std::vector<std::string> words;  // an empty one where a comma parts the name
      for (std::size_t i = 0; i <= text.size(); ++i) {
        const char c = i < text.size() ? text[i] : ' ';
        if (std::isalnum(static_cast<unsigned char>(c)) != 0 || (c & 0x80) != 0 || c == '\'') {
          if (words.empty() || i == 0 || !part_of_word(text[i - 1])) words.emplace_back();
          words.back().push_back(static_cast<char>(std::tolower(static_cast<unsigned char>(c))));
        } else if (c == ',' || c == '(' || c == ')') {
          words.emplace_back();
          words.emplace_back();
        }
      }
      for (std::size_t i = 0; i < words.size(); ++i) {
        std::string spoken;
        Phrase phrase;
        for (std::size_t k = i; k < std::min(words.size(), i + 3) && !words[k].empty(); ++k) {
          spoken += (k > i ? " " : "") + words[k];
          const lexicon::Phones& sounds = phones_of(words[k]);
          phrase.phones.insert(phrase.phones.end(), sounds.begin(), sounds.end());
          for (const std::string& w : name_words(words[k])) {
            if (const auto it = ids.find(w); it != ids.end()) phrase.words.push_back(it->second);
          }
          if (phrase.phones.size() < 4 || phrase.words.empty()) continue;
          if (k == i && everyday(name_words(words[k])[0])) continue;
          if (known.insert(spoken).second) phrases.push_back(phrase);
        }
      }
    }
  }
  static bool part_of_word(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || (c & 0x80) != 0 || c == '\'';
  }
};

const NameTable& name_table() {
  static const NameTable table;
  return table;
}

class NameMatcher {
 public:
  NameMatcher(const Lattice& lattice, std::string_view title, std::size_t introduction) {
    const auto n = std::min(lattice.tokens.size(), introduction);
    for (const std::string& w : name_words(title)) add(w, 1, true);
    const auto capital = [&](std::size_t t) {
      const std::string& raw = lattice.tokens[t].raw;
      return !raw.empty() && (raw[0] < 'a' || raw[0] > 'z');
    };
    std::size_t small = 0;
    for (std::size_t t = 0; t < n; ++t) small += capital(t) ? 0 : 1;
    const bool no_capitals = small == n;
    for (std::size_t t = 0; t < n; ++t) {
      // A lesson's subject is named early; later come names of what it is not about.
      const float trust = t < 60 ? 1.0F : 0.75F;
      const bool proper = no_capitals || capital(t);
      add(folded(lattice.tokens[t].norm), trust, proper);
      if (t + 1 < n && lattice.tokens[t].norm.size() > 2) {
        add(folded(lattice.tokens[t].norm) + folded(lattice.tokens[t + 1].norm), trust, proper);
      }
    }
    // "with bishop g5": moves that the table's names hold ("6.Bg5").
    for (const auto& r : lattice.readings) {
      if (r.first >= n) break;
      if (!r.strong || r.by_ear || !r.has_piece || !r.has_to || r.takes) continue;
      const auto at = [](const auto& costs) {
        return static_cast<std::size_t>(std::min_element(costs.begin(), costs.end()) -
                                        costs.begin());
      };
      const std::size_t square = at(r.to);
      std::string move = std::string("  nbrqk").substr(at(r.piece), 1);
      move.push_back(static_cast<char>('a' + square % 8));
      move.push_back(static_cast<char>('1' + square / 8));
      add(folded(move), 1, false);
    }
  }

  // Words compared by sound alone, phrase by phrase.
  void listen(const Lattice& lattice, std::size_t introduction, const NameTable& table) {
    const Listener listener(lattice, introduction);
    best_.assign(table.vocabulary.size(), 0);
    for (const NameTable::Phrase& phrase : table.phrases) {
      const float like = likeness_of_gain(listener.gain(phrase.phones));
      if (like <= 0) continue;
      for (const std::uint32_t w : phrase.words) best_[w] = std::max(best_[w], like);
      if (phrase.words.size() >= 2 && like > 0.3F) {
        seen_.insert(table.vocabulary[phrase.words[0]] + table.vocabulary[phrase.words[1]]);
      }
    }
  }

  // Dictation spells most names. Only where it spelled none is what was heard ("nim so") asked for
  // its sound: otherwise every phrase sounds like some name.
  void read(const Lattice& lattice, std::size_t introduction, const NameTable& table) {
    std::vector<float> spelled;
    float best = 0;
    for (std::size_t i = 0; i < table.vocabulary.size(); ++i) {
      spelled.push_back(word(table.vocabulary[i], false));
      if (table.telling[i] && spelled.back() > best) {
        best = std::max(best, word(table.vocabulary[i], true));
      }
    }
    if (best < kSpelled) {
      listen(lattice, introduction, table);
    } else {
      best_ = std::move(spelled);
    }
  }

  // Matched weight less what the name has and the talk hasn't.
  float name(const NameTable::Name& name, std::span<const std::string> vocabulary,
             std::span<const float> weights) {
    const std::vector<std::uint32_t>& words = name.words;
    float gain = 0;
    for (std::size_t i = 0; i < words.size(); ++i) {
      const float m = best_[words[i]];
      const float weight = weights[words[i]];
      // A family may go without saying ("the Najdorf"), its branches may not.
      gain += m > 0 ? m * weight
                    : (i < std::max<std::size_t>(name.family, 1) ? -0.2F : -0.45F) *
                          std::max(weight, 0.6F);
      // Everyday words side by side name something after all ("two knights", "four pawns").
      if (i > 0 && weight < 0.3F && weights[words[i - 1]] < 0.3F &&
          seen_.count(vocabulary[words[i - 1]] + vocabulary[words[i]]) != 0) {
        gain += 1.0F;
      }
    }
    return gain;
  }

 private:
  float word(const std::string& w, bool proper_only) const {
    float best = 0;
    for (const auto& [h, trust, proper] : heard_) {
      if (proper_only && !proper) continue;
      if (h[0] != w[0] && best > 0.6F) continue;
      const float like = likeness(w, h);
      best = std::max(best, like < 0.45F ? 0 : like * trust);
    }
    return best;
  }
  void add(std::string w, float trust, bool proper) {
    if (w.size() >= 3 && seen_.insert(w).second) heard_.push_back({std::move(w), trust, proper});
  }
  struct Heard {
    std::string word;
    float trust;
    bool proper;  // it may be a name: it has a capital, or the transcript has none
  };
  std::vector<Heard> heard_;
  std::unordered_set<std::string> seen_;
  std::vector<float> best_;  // likeness by word of the table
};

}  // namespace

std::vector<float> name_likeness(const Lattice& lattice, std::string_view title,
                                 std::size_t introduction) {
  NameMatcher matcher(lattice, title, introduction);
  const NameTable& table = name_table();
  if (lattice.script == hearing::Script::kWritten) {
    matcher.read(lattice, introduction, table);
  } else {
    matcher.listen(lattice, introduction, table);
  }
  std::vector<float> out(lexicon::openings().size(), -100);
  for (const NameTable::Name& name : table.names) {
    out[name.opening] =
        std::max(out[name.opening], matcher.name(name, table.vocabulary, table.weights));
  }
  return out;
}

}  // namespace plyscribe::resolve
