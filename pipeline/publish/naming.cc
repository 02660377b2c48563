#include "publish/naming.h"

#include <algorithm>
#include <string>
#include <vector>

#include "grammar/grammar.h"
#include "publish/notation.h"

namespace plyscribe::publish {
namespace {

using grammar::Unit;

std::vector<std::string> lower_words(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c == ' ' || c == '-') {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

bool is_any_of(std::string_view word, std::initializer_list<std::string_view> list) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

bool is_capture(std::string_view word) { return is_any_of(word, {"takes", "captures", "x"}); }

// Words that a sentence around the move would need.
bool belongs_to_a_sentence(const std::string& word) {
  if (is_capture(word) || is_any_of(word, {"to", "on", "onto"})) return false;
  if (is_any_of(word, {"i", "we", "you", "he", "she", "it", "they", "him", "them", "is", "are"})) {
    return true;
  }
  const auto& entries = grammar::grammar().vocabulary(word);
  return std::any_of(entries.begin(), entries.end(), [](const grammar::VocabularyEntry& e) {
    return e.unit == Unit::kGo || e.unit == Unit::kDet || e.unit == Unit::kWith ||
           e.unit == Unit::kFrom || e.unit == Unit::kTakes || e.unit == Unit::kCastle;
  });
}

bool is_written_castling(std::string_view word) {
  return word.find_first_not_of("o0") == word.npos;
}

}  // namespace

bool names_only(std::string_view words) {
  const std::vector<std::string> list = lower_words(words);
  if (std::all_of(list.begin(), list.end(), is_written_castling)) return !list.empty();
  return !list.empty() && std::none_of(list.begin(), list.end(), belongs_to_a_sentence);
}

bool spells(std::string_view words, std::string_view san) {
  const std::vector<std::string> heard = lower_words(words);
  const Notation in_words{.style = NotationStyle::kWords};
  return heard == lower_words(write_move(san, in_words)) ||
         heard == lower_words(write_move(san.substr(0, san.find_first_of("+#")), in_words));
}

bool bare_capture(std::string_view words) {
  const std::vector<std::string> list = lower_words(words);
  return std::all_of(list.begin(), list.end(), is_capture);
}

}  // namespace plyscribe::publish
