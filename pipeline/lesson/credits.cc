#include "lesson/credits.h"

#include <re2/re2.h>

#include <algorithm>
#include <cstddef>
#include <functional>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>

#include "lesson/sentences.h"
#include "lexicon/openings.h"

namespace plyscribe::lesson {
namespace {

constexpr std::size_t kNameReach = 12;   // words between a player and "against"
constexpr std::size_t kBehindReach = 6;  // words between "against" and the opponent

// A word of a sentence as names are told in it.
struct Token {
  std::string text, lower;
  bool capital = false;
  bool talk = true;   // no part of a move
  bool ends = false;  // a mark stands behind it
};

bool is_one_of(const std::string& word, std::initializer_list<std::string_view> list) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

bool joins_players(const std::string& word) {
  return is_one_of(word, {"against", "versus", "vs", "v", "beat", "defeated"});
}

bool is_event(const std::string& word) {
  return is_one_of(word, {"open", "cup", "league", "rapid", "congress", "tournament", "weekender",
                          "championship", "championships", "match", "final", "blitz", "memorial",
                          "festival", "olympiad", "masters", "prix", "spartakiad", "team"});
}

// Words with a capital that name nobody.
bool names_nobody(const std::string& lower) {
  return is_one_of(
      lower, {"white",   "black", "i",       "i'm",      "i'd",  "i've",    "i'll",   "king",
              "queen",   "rook",  "bishop",  "knight",   "pawn", "queen's", "king's", "white's",
              "black's", "move",  "castles", "takes",    "the",  "a",       "and",    "but",
              "so",      "now",   "mine",    "remember", "see"});
}

std::vector<Token> tokens_of(const transcript::Transcript& transcript, const Sentence& s) {
  std::vector<Token> tokens;
  for (const Piece& piece : s.pieces) {
    for (std::uint32_t w = piece.first_word; w < piece.last_word; ++w) {
      const transcript::Word& word = transcript.words[w];
      Token t;
      t.text = word.text;
      t.lower = word.text;
      for (char& c : t.lower) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      const auto first = static_cast<unsigned char>(word.text.empty() ? 'a' : word.text[0]);
      t.talk = piece.kind == Piece::Kind::kWord;
      t.capital = ((first >= 'A' && first <= 'Z') || first >= 0xC3) && t.talk &&
                  word.text.size() > 2 && !names_nobody(t.lower);
      t.ends = !word.trail.empty();
      tokens.push_back(std::move(t));
    }
  }
  // Every sentence begins with a capital: it is a name's if a name's neighbours follow.
  if (!tokens.empty() && tokens[0].capital) {
    const bool name = tokens.size() > 1 && (joins_players(tokens[1].lower) || tokens[1].capital ||
                                            is_one_of(tokens[1].lower, {"won", "was", "lost"}));
    const bool common =
        is_one_of(tokens[0].lower, {"that", "this", "there", "what", "who", "here", "see", "and",
                                    "instead", "playing", "his", "her", "it"});
    tokens[0].capital = name && !common;
  }
  return tokens;
}

// Names [first, last): neighbours with capitals and no mark between them.
struct Run {
  std::size_t first = 0, last = 0;
};

std::string text_of(const std::vector<Token>& tokens, Run run) {
  std::string text;
  for (std::size_t i = run.first; i < run.last; ++i) {
    text += (text.empty() ? "" : " ") + tokens[i].text;
  }
  return text;
}

Run run_at(const std::vector<Token>& tokens, std::size_t i) {
  Run run{i, i + 1};
  while (run.last < tokens.size() && tokens[run.last].capital && !tokens[run.last - 1].ends)
    ++run.last;
  while (run.first > 0 && tokens[run.first - 1].capital && !tokens[run.first - 1].ends) --run.first;
  return run;
}

bool holds_event(const std::vector<Token>& tokens, Run run) {
  return std::any_of(tokens.begin() + static_cast<std::ptrdiff_t>(run.first),
                     tokens.begin() + static_cast<std::ptrdiff_t>(run.last),
                     [](const Token& t) { return is_event(t.lower); });
}

// "Cup of Sorvanka", "Brackwater Open", "Lindmoor team cup", "Grand Prix of Nether Sound".
std::string event_in(const std::vector<Token>& tokens) {
  const auto belongs = [&](const Token& t) {
    return t.talk && (t.capital || is_event(t.lower) ||
                      is_one_of(t.lower, {"spring", "summer", "winter", "autumn", "club", "county",
                                          "correspondence", "grand", "valley"}));
  };
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    if (!is_event(tokens[i].lower) || !tokens[i].talk) continue;
    Run run{i, i + 1};
    while (run.first > 0 && belongs(tokens[run.first - 1]) && !tokens[run.first - 1].ends)
      --run.first;
    while (run.last < tokens.size() && !tokens[run.last - 1].ends &&
           (belongs(tokens[run.last]) ||
            (tokens[run.last].lower == "of" && run.last + 1 < tokens.size() &&
             tokens[run.last + 1].capital))) {
      ++run.last;
    }
    const bool named = std::any_of(tokens.begin() + static_cast<std::ptrdiff_t>(run.first),
                                   tokens.begin() + static_cast<std::ptrdiff_t>(run.last),
                                   [](const Token& t) { return t.capital; });
    if (named && run.last - run.first > 1) return text_of(tokens, run);
  }
  return "";
}

// The year as it was heard: "2004", "'93", "twenty eleven", "two thousand and nine".
std::string year_in(const std::vector<Token>& tokens) {
  static const RE2 kYear(
      "(?:^| )((?:19|20)\\d\\d|'\\d\\d|two thousand(?: and)? [a-z]+|(?:nineteen|twenty) "
      "(?:eleven|twelve|[a-z]+teen|"
      "[a-z]+ty(?:[- ][a-z]+)?|oh [a-z]+)|(?:seventy|eighty|ninety)-[a-z]+)(?: |$)");
  std::string text;
  for (const Token& t : tokens)
    text += (text.empty() ? "" : " ") + (t.talk ? t.lower : std::string("<m>"));
  std::string year;
  RE2::PartialMatch(text, kYear, &year);
  return year;
}

// Nothing but words of openings' names: "against the Sicilian", "the Open Catalan".
bool names_an_opening(const std::string& text) {
  static const auto words = [] {
    std::set<std::string, std::less<>> all;
    for (const lexicon::Opening& o : lexicon::openings()) {
      std::string word;
      for (const char c : std::string(o.name) + " ") {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-';
        if (letter) {
          word += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        } else if (!word.empty()) {
          all.insert(std::exchange(word, {}));
        }
      }
    }
    return all;
  }();
  std::istringstream in(text);
  for (std::string word; in >> word;) {
    for (char& c : word) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (!words.contains(word)) return false;
  }
  return true;
}

std::optional<Credit> credit_in(const std::vector<Token>& tokens) {
  Credit credit;
  credit.event = event_in(tokens);
  for (std::size_t i = 0; i < tokens.size() && credit.opponent.empty() && credit.player.empty();
       ++i) {
    if (!joins_players(tokens[i].lower) || !tokens[i].talk) continue;
    std::string before, behind;
    for (std::size_t k = i; k > 0 && i - k < kNameReach && before.empty(); --k) {
      if (!tokens[k - 1].capital) continue;
      const Run run = run_at(tokens, k - 1);
      if (!holds_event(tokens, run)) before = text_of(tokens, run);
      k = run.first + 1;
    }
    for (std::size_t k = i + 1; k < tokens.size() && k <= i + kBehindReach && behind.empty(); ++k) {
      if (tokens[k].capital) behind = text_of(tokens, run_at(tokens, k));
    }
    const bool of_speaker = i + 1 < tokens.size() && is_one_of(tokens[i + 1].lower, {"me", "us"});
    if (behind.empty() && !of_speaker) continue;
    credit.player = std::move(before);
    credit.opponent = of_speaker ? "" : std::move(behind);
  }
  if (credit.player.empty() && credit.opponent.empty() && credit.event.empty()) return std::nullopt;
  credit.year = year_in(tokens);
  const std::string names = credit.player + " " + credit.opponent + " " + credit.event;
  if (credit.year.empty() && names_an_opening(names)) return std::nullopt;
  return credit;
}

}  // namespace

std::vector<Credit> credits(const transcript::Transcript& transcript, const Lesson& lesson) {
  std::vector<Credit> all;
  NodeId node = 0;
  for (const Sentence& s : sentences_of(transcript, lesson)) {
    auto credit = credit_in(tokens_of(transcript, s));
    if (credit) {
      credit->span = quote(transcript, s.first_word(), s.last_word());
      credit->node = node;
      all.push_back(std::move(*credit));
    }
    for (const Piece& p : s.pieces) {
      if (p.kind == Piece::Kind::kMove) node = p.node;
    }
  }
  return all;
}

}  // namespace plyscribe::lesson
