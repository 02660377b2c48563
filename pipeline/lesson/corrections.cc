#include "lesson/corrections.h"

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include "grammar/grammar.h"

namespace plyscribe::lesson {
namespace {

constexpr std::uint32_t kReach = 6;  // words between the two namings

struct Range {
  std::uint32_t begin = 0, end = 0;
};

// All that names a move, in the order of the words.
std::vector<Range> namings(const Lesson& lesson) {
  std::vector<Range> out;
  const auto add = [&](const Span& span) { out.push_back({span.first_word, span.last_word}); };
  for (const Node& node : lesson.nodes) {
    for (const Mention& m : node.mentions) add(m.span);
  }
  for (const Idea& idea : lesson.ideas) add(idea.span);
  for (const Loose& loose : lesson.loose) add(loose.span);
  std::sort(out.begin(), out.end(), [](const Range& a, const Range& b) {
    return std::pair(a.begin, a.end) < std::pair(b.begin, b.end);
  });
  return out;
}

std::string text_of(const transcript::Transcript& transcript, std::uint32_t first,
                    std::uint32_t last) {
  std::string text;
  for (std::uint32_t i = first; i < last; ++i) {
    if (!text.empty()) text += ' ';
    text += transcript.words[i].text;
  }
  return text;
}

std::string lower(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
  }
  return text;
}

bool holds_correction(const std::string& text) {
  static const int kCue = [] {
    const auto& names = grammar::grammar().cue_names();
    const auto it = std::find(names.begin(), names.end(), "self-correction");
    assert(it != names.end());
    return static_cast<int>(it - names.begin());
  }();
  const std::vector<int> cues = grammar::grammar().cues_in(lower(text));
  return std::binary_search(cues.begin(), cues.end(), kCue);
}

bool ends_in_square(std::string_view word) {
  if (word.size() < 2) return false;
  const char file = word[word.size() - 2], rank = word.back();
  return file >= 'a' && file <= 'h' && rank >= '1' && rank <= '8';
}

}  // namespace

std::vector<Span> corrections(const transcript::Transcript& transcript, const Lesson& lesson) {
  std::vector<Span> out;
  const auto add = [&](Range range) {
    if (!out.empty() && range.begin < out.back().last_word) return;  // part of the one before
    out.push_back({round_seconds(transcript.words[range.begin].start),
                   round_seconds(transcript.words[range.end - 1].end), range.begin, range.end,
                   text_of(transcript, range.begin, range.end)});
  };
  Range before;  // the last naming, mentioned or only a word that ends in a square
  for (const Range& naming : namings(lesson)) {
    const std::uint32_t from =
        std::max(before.end, naming.begin > kReach ? naming.begin - kReach : 0);
    for (std::uint32_t i = from; i < naming.begin; ++i) {
      if (ends_in_square(transcript.words[i].text)) before = {i, i + 1};
    }
    if (holds_correction(text_of(transcript, naming.begin, naming.end))) {
      add(naming);
    } else if (before.end > 0 && before.end < naming.begin && naming.begin - before.end <= kReach &&
               holds_correction(text_of(transcript, before.end, naming.begin))) {
      add({before.begin, naming.end});
    }
    before = naming;
  }
  return out;
}

}  // namespace plyscribe::lesson
