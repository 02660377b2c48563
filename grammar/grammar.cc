#include "grammar/grammar.h"

#include <re2/re2.h>
#include <re2/set.h>

#include <algorithm>
#include <cstdlib>
#include <unordered_map>

#include "embedded/cues_tsv.h"
#include "embedded/moves_txt.h"
#include "embedded/vocabulary_tsv.h"
#include "grammar/rows.h"

namespace plyscribe::grammar {
namespace {

const std::unordered_map<std::string_view, Unit>& unit_names() {
  static const std::unordered_map<std::string_view, Unit> names = {
      {"PIECE", Unit::kPiece},      {"VICTIM", Unit::kVictim}, {"PAWN", Unit::kPawn},
      {"FILE", Unit::kFile},        {"RANK", Unit::kRank},     {"TO", Unit::kTo},
      {"FROMSQ", Unit::kFromSquare}, {"TAKES", Unit::kTakes},  {"GO", Unit::kGo},
      {"DET", Unit::kDet},          {"WITH", Unit::kWith},     {"FROM", Unit::kFrom},
      {"COLOR", Unit::kColor},      {"CHECK", Unit::kCheck},   {"MATE", Unit::kMate},
      {"CASTLE", Unit::kCastle},    {"PROMOTE", Unit::kPromote}, {"EP", Unit::kEnPassant},
      {"SAN", Unit::kSan},          {"BOTH", Unit::kBoth},     {"TWICE", Unit::kTwice},
      {"SWAP", Unit::kSwap},        {"OFF", Unit::kOff},
  };
  return names;
}

}  // namespace

struct Grammar::Impl {
  std::unordered_map<std::string, std::vector<VocabularyEntry>> vocabulary;
  std::size_t longest = 1;
  std::vector<Pattern> patterns;
  std::vector<std::string> cue_names;
  std::vector<int> cue_of_regex;
  std::unique_ptr<RE2::Set> cues;
};

Grammar::Grammar(std::string_view vocabulary, std::string_view patterns, std::string_view cues)
    : impl_(std::make_unique<Impl>()) {
  each_line(vocabulary, [&](std::string_view line) {
    const auto fields = split(line, '\t');
    if (fields.size() != 3) broken("vocabulary.tsv", line);
    const auto parts = split(fields[1], '=');
    const auto unit = unit_names().find(parts[0]);
    if (unit == unit_names().end()) broken("vocabulary.tsv", line);
    VocabularyEntry entry{unit->second, parts.size() > 1 ? parts[1][0] : '\0',
                          std::strtof(std::string(fields[2]).c_str(), nullptr)};
    impl_->vocabulary[std::string(fields[0])].push_back(entry);
    const auto words = static_cast<std::size_t>(std::count(fields[0].begin(), fields[0].end(), ' '));
    impl_->longest = std::max(impl_->longest, words + 1);
  });

  each_line(patterns, [&](std::string_view line) {
    const std::size_t colon = line.find(':');
    if (colon == std::string_view::npos) broken("moves.txt", line);
    Pattern pattern;
    pattern.name = std::string(line.substr(0, colon));
    for (std::string_view word : split(line.substr(colon + 1), ' ')) {
      if (word.empty()) continue;
      Element element;
      if (word.back() == '?' || word.back() == '*') element.optional = true;
      if (word.back() == '*' || word.back() == '+') element.repeats = true;
      if (element.optional || element.repeats) word.remove_suffix(1);
      const auto unit = unit_names().find(word);
      if (unit == unit_names().end()) broken("moves.txt", line);
      element.unit = unit->second;
      pattern.elements.push_back(element);
    }
    impl_->patterns.push_back(std::move(pattern));
  });

  impl_->cues = std::make_unique<RE2::Set>(RE2::DefaultOptions, RE2::UNANCHORED);
  each_line(cues, [&](std::string_view line) {
    const std::size_t tab = line.find('\t');
    if (tab == std::string_view::npos) broken("cues.tsv", line);
    const std::string name(line.substr(0, tab));
    auto known = std::find(impl_->cue_names.begin(), impl_->cue_names.end(), name);
    if (known == impl_->cue_names.end()) {
      impl_->cue_names.push_back(name);
      known = impl_->cue_names.end() - 1;
    }
    const std::string_view regex = line.substr(tab + 1);
    std::string error;
    if (impl_->cues->Add({regex.data(), regex.size()}, &error) < 0) broken("cues.tsv", line);
    impl_->cue_of_regex.push_back(static_cast<int>(known - impl_->cue_names.begin()));
  });
  if (!impl_->cues->Compile()) broken("cues.tsv", "(the whole set)");
}

Grammar::~Grammar() = default;

const std::vector<VocabularyEntry>& Grammar::vocabulary(std::string_view phrase) const {
  static const std::vector<VocabularyEntry> none;
  const auto it = impl_->vocabulary.find(std::string(phrase));
  return it == impl_->vocabulary.end() ? none : it->second;
}

std::size_t Grammar::longest_phrase() const { return impl_->longest; }
const std::vector<Pattern>& Grammar::patterns() const { return impl_->patterns; }
const std::vector<std::string>& Grammar::cue_names() const { return impl_->cue_names; }

std::vector<int> Grammar::cues_in(std::string_view text) const {
  std::vector<int> regexes;
  std::vector<int> out;
  if (!impl_->cues->Match({text.data(), text.size()}, &regexes)) return out;
  for (int r : regexes) out.push_back(impl_->cue_of_regex[static_cast<std::size_t>(r)]);
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

const Grammar& grammar() {
  static const Grammar instance(embedded::vocabulary_tsv, embedded::moves_txt,
                                embedded::cues_tsv);
  return instance;
}

}  // namespace plyscribe::grammar
