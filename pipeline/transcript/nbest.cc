#include "transcript/nbest.h"

#include <algorithm>
#include <cctype>
#include <utility>

#include "transcript/words.h"

namespace plyscribe::transcript {
namespace {

constexpr std::size_t kMaxCells = 250'000;

MappedText unmapped(const std::string& text) {
  MappedText mapped;
  mapped.append(text, {});
  return mapped;
}

std::vector<std::string> bare_words(const std::string& text) {
  std::vector<std::string> words;
  for (Token& t : split_words(unmapped(text))) {
    if (!t.text.empty()) words.push_back(std::move(t.text));
  }
  return words;
}

std::string join(std::span<const std::string> words) {
  std::string text;
  for (const std::string& w : words) text += (text.empty() ? "" : " ") + w;
  return text;
}

bool same(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return std::tolower(static_cast<unsigned char>(c)); };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return lower(x) == lower(y); });
}

void add(Word& word, std::string text, double confidence) {
  if (same(text, word.text)) return;
  const auto there = std::find_if(word.alternatives.begin(), word.alternatives.end(),
                                  [&](const Alternative& a) { return a.text == text; });
  if (there == word.alternatives.end()) {
    word.alternatives.push_back({std::move(text), confidence});
  } else {
    there->confidence = std::max(there->confidence, confidence);
  }
}

}  // namespace

void attach_alternative(const Alternative& other, std::span<Word> words) {
  const std::vector<std::string> theirs = bare_words(other.text);
  const std::size_t n = words.size(), m = theirs.size();
  if (n == 0 || m == 0 || (n + 1) * (m + 1) > kMaxCells) return;

  // cost[i][j]: edits between the words from i and theirs from j.
  std::vector<std::size_t> cost((n + 1) * (m + 1));
  const auto at = [&](std::size_t i, std::size_t j) -> std::size_t& {
    return cost[i * (m + 1) + j];
  };
  for (std::size_t i = n + 1; i-- > 0;) {
    for (std::size_t j = m + 1; j-- > 0;) {
      if (i == n || j == m) {
        at(i, j) = (n - i) + (m - j);
      } else if (same(words[i].text, theirs[j])) {
        at(i, j) = at(i + 1, j + 1);
      } else {
        at(i, j) = 1 + std::min({at(i + 1, j + 1), at(i + 1, j), at(i, j + 1)});
      }
    }
  }

  std::size_t i = 0, j = 0;
  while (i < n && j < m) {
    if (same(words[i].text, theirs[j])) {
      ++i, ++j;
      continue;
    }
    const std::size_t i0 = i, j0 = j;  // a stretch without a common word
    while (i < n && j < m && !same(words[i].text, theirs[j])) {
      if (at(i, j) == 1 + at(i + 1, j + 1)) {
        ++i, ++j;
      } else if (at(i, j) == 1 + at(i + 1, j)) {
        ++i;
      } else {
        ++j;
      }
    }
    if (i == n) j = m;
    for (std::size_t k = i0; k < i && j0 + (k - i0) < j; ++k) {
      const std::size_t first = j0 + (k - i0);
      const std::size_t count = k + 1 == i ? j - first : 1;
      add(words[k], join(std::span(theirs).subspan(first, count)), other.confidence);
    }
  }
}

std::vector<Alternative> tidy_alternatives(std::vector<Alternative> alternatives,
                                           const std::string& heard) {
  Word word;
  word.text = heard;
  for (const Alternative& a : alternatives) {
    std::string text = join(bare_words(a.text));
    if (!text.empty()) add(word, std::move(text), a.confidence);
  }
  std::stable_sort(
      word.alternatives.begin(), word.alternatives.end(),
      [](const Alternative& a, const Alternative& b) { return a.confidence > b.confidence; });
  return std::move(word.alternatives);
}

}  // namespace plyscribe::transcript
