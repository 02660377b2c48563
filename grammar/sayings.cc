#include "grammar/sayings.h"

#include <re2/re2.h>
#include <re2/set.h>

#include <algorithm>
#include <charconv>
#include <memory>
#include <optional>
#include <tuple>
#include <utility>

#include "embedded/sayings_tsv.h"
#include "grammar/rows.h"

namespace plyscribe::grammar {
namespace {

constexpr const char* kFile = "sayings.tsv";
constexpr int kFirstPositional = 10;       // of the standard's numbers: 1 to 9 speak of the move
constexpr std::size_t kNegationReach = 3;  // words
constexpr std::size_t kConditionReach = 6;

struct Row {
  Phrase phrase;
  std::unique_ptr<RE2> regex;
  int move_group = 0;            // "move"; 0: none
  std::vector<int> side_groups;  // "who", "who2", ...
};

struct Table {
  std::vector<Row> rows;
  std::unique_ptr<RE2::Set> all;  // which rows occur at all
};

int number(std::string_view digits, std::string_view line) {
  int n = 0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), n);
  if (error != std::errc() || end != digits.data() + digits.size() || n < 1 || n > 255) {
    broken(kFile, line);
  }
  return n;
}

Phrase parse_phrase(std::string_view what, std::string_view of, std::string_view line) {
  Phrase p;
  constexpr std::pair<std::string_view, CounselKind> kCounsels[] = {
      {"recommended", CounselKind::kRecommended},
      {"playable", CounselKind::kPlayable},
      {"avoided", CounselKind::kAvoided},
      {"for completeness", CounselKind::kForCompleteness},
  };
  for (const auto& [name, kind] : kCounsels) {
    if (what == name) {
      p.saying = Saying::kAdvice;
      p.counsel = kind;
    }
  }
  if (what == "remark") p.saying = Saying::kRemark;
  if (what == "reference") p.saying = Saying::kReference;
  if (what.starts_with('$')) {
    p.of_other_side = what.ends_with(" !");
    if (what.ends_with(" *")) p.whose = Phrase::Whose::kToMove;
    if (what.ends_with(" ~")) p.whose = Phrase::Whose::kBehind;
    what = what.substr(0, what.find(' '));
    const auto numbers = split(what.substr(1), '/');
    p.nag_white = number(numbers.front(), line);
    p.nag_black = number(numbers.back(), line);
    p.saying = p.nag_white < kFirstPositional ? Saying::kMove : Saying::kPosition;
  }
  if (p.saying == Saying::kTalk && what != "-") broken(kFile, line);
  if (of == "line") {
    p.of = SpokenOf::kLine;
  } else if (of == "next") {
    p.of = SpokenOf::kNext;
  } else if (of != "here") {
    broken(kFile, line);
  }
  return p;
}

void replace_all(std::string& text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + with.size())) {
    text.replace(at, what.size(), with);
  }
}

Table read_table() {
  Table table;
  table.all = std::make_unique<RE2::Set>(RE2::DefaultOptions, RE2::UNANCHORED);
  std::vector<std::pair<std::string, std::string>> pieces;
  each_line(embedded::sayings_tsv, [&](std::string_view line) {
    const auto fields = split(line, '\t');
    if (fields.size() != 3) broken(kFile, line);
    std::string pattern(fields[2]);
    for (auto it = pieces.rbegin(); it != pieces.rend(); ++it) {
      replace_all(pattern, it->first, it->second);
    }
    if (fields[0] == "where") {
      pieces.emplace_back(fields[1], std::move(pattern));
      return;
    }
    replace_all(pattern, "<M>", "(?P<move><m>)");
    Row row;
    row.phrase = parse_phrase(fields[0], fields[1], line);
    row.regex = std::make_unique<RE2>(pattern, RE2::Quiet);
    if (!row.regex->ok()) broken(kFile, line);
    for (const auto& [name, group] : row.regex->NamedCapturingGroups()) {
      if (name == "move") row.move_group = group;
      if (name.starts_with("who")) row.side_groups.push_back(group);
    }
    if (table.all->Add(pattern, nullptr) < 0) broken(kFile, line);
    table.rows.push_back(std::move(row));
  });
  if (!table.all->Compile()) broken(kFile, "(the whole set)");
  return table;
}

const Table& table() {
  static const Table instance = read_table();
  return instance;
}

bool is_mark(std::string_view word) { return word.find_first_not_of(",.;:!?-") == word.npos; }

// Is one of the last words before the phrase a negation, or is the clause about what might be?
// "when he gets it Black is squeezed"; but "if <m> Black is squeezed" is meant.
bool unreal(std::string_view before) {
  for (std::size_t i = 0;; ++i) {
    while (!before.empty() && before.back() == ' ') before.remove_suffix(1);
    if (before.empty()) return false;
    const std::size_t blank = before.rfind(' ');
    const std::string_view word = before.substr(blank == std::string_view::npos ? 0 : blank + 1);
    if (is_mark(word) || word.starts_with('<')) return false;
    for (const std::string_view no :
         {"not", "n't", "no", "never", "without", "hardly", "nobody", "nor", "neither"}) {
      if (word == no && i < kNegationReach) return true;
    }
    for (const std::string_view if_word : {"if", "when", "once", "unless", "until", "whenever"}) {
      if (word == if_word && i < kConditionReach) return true;
    }
    before.remove_suffix(word.size());
  }
  return false;
}

std::optional<Found> found_at(const Row& row, std::string_view sentence, std::size_t from) {
  const auto groups = static_cast<std::size_t>(row.regex->NumberOfCapturingGroups()) + 1;
  std::vector<re2::StringPiece> parts(groups);
  if (!row.regex->Match({sentence.data(), sentence.size()}, from, sentence.size(), RE2::UNANCHORED,
                        parts.data(), static_cast<int>(groups))) {
    return std::nullopt;
  }
  const auto offset = [&](const re2::StringPiece& part) {
    return static_cast<std::size_t>(part.data() - sentence.data());
  };
  Found found;
  found.phrase = &row.phrase;
  found.begin = offset(parts[0]);
  found.end = found.begin + parts[0].size();
  if (row.move_group > 0) {
    const auto& part = parts[static_cast<std::size_t>(row.move_group)];
    if (part.data() != nullptr) found.move = offset(part);
  }
  for (const int group : row.side_groups) {
    const auto& part = parts[static_cast<std::size_t>(group)];
    if (part.data() != nullptr) found.side.assign(part.data(), part.size());
  }
  return found;
}

}  // namespace

std::vector<Found> sayings_in(std::string_view sentence) {
  std::vector<int> occurring;
  if (!table().all->Match({sentence.data(), sentence.size()}, &occurring)) return {};
  std::sort(occurring.begin(), occurring.end());
  std::vector<Found> all;
  for (const int r : occurring) {
    const Row& row = table().rows[static_cast<std::size_t>(r)];
    for (std::size_t from = 0; from <= sentence.size();) {
      const auto found = found_at(row, sentence, from);
      if (!found) break;
      from = std::max(found->end, from + 1);
      const bool counts = row.phrase.saying == Saying::kTalk ||
                          row.phrase.saying == Saying::kRemark ||
                          !unreal(sentence.substr(0, found->begin));
      if (counts) all.push_back(*found);
    }
  }
  // The longest first; of the same length, the earlier row.
  std::stable_sort(all.begin(), all.end(), [](const Found& a, const Found& b) {
    return a.end - a.begin > b.end - b.begin;
  });
  std::vector<Found> kept;
  for (const Found& f : all) {
    const bool covered = std::any_of(kept.begin(), kept.end(), [&](const Found& k) {
      const bool same_sort = k.phrase->saying == f.phrase->saying ||
                             k.phrase->saying == Saying::kTalk || f.phrase->saying == Saying::kTalk;
      return same_sort && f.begin < k.end && k.begin < f.end;
    });
    if (!covered) kept.push_back(f);
  }
  std::erase_if(kept, [](const Found& f) { return f.phrase->saying == Saying::kTalk; });
  std::sort(kept.begin(), kept.end(), [](const Found& a, const Found& b) {
    return std::tuple(a.begin, a.end) < std::tuple(b.begin, b.end);
  });
  return kept;
}

std::string parted_word(std::string_view word) {
  if (word.size() > 3 && word.ends_with("n't")) {
    return std::string(word.substr(0, word.size() - 3)) + " n't";
  }
  for (const std::string_view tail : {"'s", "'re", "'ve", "'d", "'ll", "'m"}) {
    if (word.size() > tail.size() && word.ends_with(tail)) {
      return std::string(word.substr(0, word.size() - tail.size())) + " " + std::string(tail);
    }
  }
  return std::string(word);
}

}  // namespace plyscribe::grammar
