#include "hearing/second_guesses.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>

#include "hearing/ear.h"
#include "hearing/matcher.h"

namespace plyscribe::hearing {
namespace {

constexpr std::size_t kGuesses = 2;  // alternatives of a word that are looked at
constexpr float kLeastPenalty = 0.5F, kMostPenalty = 5.0F;  // nats
constexpr float kUntoldPenalty = 1.0F;                      // where no confidence is given

// The tokens of each word: [first[w], first[w + 1]).
std::vector<std::uint32_t> first_tokens(const std::vector<Token>& tokens, std::size_t words) {
  std::vector<std::uint32_t> first(words + 1, 0);
  for (const Token& token : tokens) ++first[token.word + 1];
  for (std::size_t w = 1; w <= words; ++w) first[w] += first[w - 1];
  return first;
}

// How much less likely than what was heard.
float penalty(const transcript::Word& word, const transcript::Alternative& guess) {
  if (guess.confidence <= 0) return kUntoldPenalty;
  const double ratio = std::max(word.confidence, 1e-3) / std::max(guess.confidence, 1e-3);
  return std::clamp(static_cast<float>(std::log(ratio)), kLeastPenalty, kMostPenalty);
}

// The words of a guess, one at least.
std::vector<std::string> parted(const std::string& text) {
  std::vector<std::string> out(1);
  for (const char c : text) {
    if (c != ' ') {
      out.back().push_back(c);
    } else if (!out.back().empty()) {
      out.emplace_back();
    }
  }
  if (out.back().empty() && out.size() > 1) out.pop_back();
  return out;
}

class Guesser {
 public:
  Guesser(const transcript::Transcript& t, const std::vector<Token>& tokens, Script script)
      : t_(t), script_(script), first_(first_tokens(tokens, t.words.size())) {}

  // Reads the lesson with the guesses of this rank at the words that `chosen` holds for.
  template <typename Chosen>
  void read(std::size_t rank, const Chosen& chosen, std::vector<Reading>& out) const {
    transcript::Transcript other;
    std::vector<std::uint32_t> own;  // by word of the other: the lesson's that it stands for
    std::vector<float> penalties(t_.words.size(), 0);
    bool any = false;
    for (std::uint32_t w = 0; w < t_.words.size(); ++w) {
      const auto& guesses = t_.words[w].alternatives;
      if (rank >= guesses.size() || !chosen(w)) {
        other.words.push_back(t_.words[w]);
        own.push_back(w);
        continue;
      }
      for (const std::string& text : parted(guesses[rank].text)) {
        other.words.push_back(t_.words[w]);
        other.words.back().text = text;
        other.words.back().trail.clear();
        own.push_back(w);
      }
      other.words.back().trail = t_.words[w].trail;
      penalties[w] = penalty(t_.words[w], guesses[rank]);
      any = true;
    }
    if (!any) return;
    std::vector<Token> tokens = tokens_of(other);
    if (script_ == Script::kSpokenWords) split_tens(tokens);
    for (Token& token : tokens) token.word = own[token.word];
    const std::vector<std::uint32_t> first = first_tokens(tokens, t_.words.size());
    for (Reading& r : read_tokens(tokens, script_)) {
      float extra = 0;
      for (std::uint32_t w = tokens[r.first].word; w <= tokens[r.last - 1].word; ++w) {
        extra += penalties[w];
      }
      if (extra <= 0) continue;
      const auto begin = place(first, tokens[r.first].word, r.first);
      const auto end = place(first, tokens[r.last - 1].word, r.last);
      if (!begin || !end || *begin >= *end) continue;
      r.first = *begin;
      r.last = *end;
      r.base += extra;
      r.best += extra;
      out.push_back(r);
    }
  }

 private:
  // Where the boundary between tokens of the other reading is among the lesson's own: at the ends
  // of a word anywhere, inside one only where it is cut alike.
  std::optional<std::uint32_t> place(const std::vector<std::uint32_t>& first, std::uint32_t word,
                                     std::uint32_t token) const {
    if (token == first[word]) return first_[word];
    if (token == first[word + 1]) return first_[word + 1];
    if (first[word + 1] - first[word] != first_[word + 1] - first_[word]) return std::nullopt;
    return first_[word] + token - first[word];
  }

  const transcript::Transcript& t_;
  const Script script_;
  const std::vector<std::uint32_t> first_;
};

}  // namespace

std::vector<Reading> second_guesses(const transcript::Transcript& t,
                                    const std::vector<Token>& tokens, Script script) {
  std::vector<Reading> out;
  const Guesser guesser(t, tokens, script);
  for (std::size_t rank = 0; rank < kGuesses; ++rank) {
    guesser.read(
        rank, [](std::size_t w) { return w % 2 == 0; }, out);
    guesser.read(
        rank, [](std::size_t w) { return w % 2 == 1; }, out);
  }
  guesser.read(
      0, [](std::size_t) { return true; }, out);
  return out;
}

}  // namespace plyscribe::hearing
