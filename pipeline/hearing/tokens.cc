#include "hearing/tokens.h"

#include <algorithm>
#include <cctype>
#include <string_view>

#include "grammar/grammar.h"
#include "support/limits.h"

namespace plyscribe::hearing {
namespace {

char lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }
bool is_file(char c) { return lower(c) >= 'a' && lower(c) <= 'h'; }
bool is_rank(char c) { return c >= '1' && c <= '8'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::string lowered(std::string_view s) {
  std::string out(s);
  for (char& c : out) c = lower(c);
  return out;
}

bool is_castling(std::string_view s) {
  for (char c : s) {
    if (c != '-' && lower(c) != 'o' && c != '0' && c != '+' && c != '#') return false;
  }
  return s.size() >= 3;
}

// "14.Re1", "7...Nf6": the number says nothing here. A bare "14." stays.
std::string_view without_move_number(std::string_view s) {
  std::size_t i = 0;
  while (i < s.size() && is_digit(s[i])) ++i;
  if (i == 0 || i == s.size()) return s;
  if (s[i] == '.') {
    while (i < s.size() && s[i] == '.') ++i;
    return i < s.size() ? s.substr(i) : s;
  }
  // "14Re1": a number fused with a piece letter and a square.
  const std::string_view rest = s.substr(i);
  const bool move = rest.size() >= 3 && std::string_view("NBRQK").find(rest[0]) != std::string::npos &&
                    is_rank(rest.back());
  return move ? rest : s;
}

// How many characters of s from i on are one written move: [piece][file][rank][x]file rank.
std::vector<std::size_t> move_lengths(std::string_view s, std::size_t i) {
  std::vector<std::size_t> out;
  const std::size_t from = i;
  if (i < s.size() && std::string_view("NBRQK").find(s[i]) != std::string_view::npos) ++i;
  const auto ends_at = [&](std::size_t k) {
    return k + 1 < s.size() && is_file(s[k]) && is_rank(s[k + 1]);
  };
  const auto takes_at = [&](std::size_t k) { return k < s.size() && lower(s[k]) == 'x'; };
  for (const bool origin : {false, true}) {
    std::size_t k = i;
    if (origin) {
      if (k >= s.size() || (!is_file(s[k]) && !is_rank(s[k]))) break;
      ++k;
    }
    if (takes_at(k)) ++k;
    if (ends_at(k)) out.push_back(k + 2 - from);
  }
  return out;
}

// "Qb5dxe5", "exd5Nxd5": written moves run together. Empty if the word is anything else.
std::vector<std::string> fused_moves(std::string_view s, std::size_t from = 0) {
  if (from == s.size()) return {};
  for (const std::size_t n : move_lengths(s, from)) {
    const std::string first(s.substr(from, n));
    if (from + n == s.size()) return {first};
    auto rest = fused_moves(s, from + n);
    // "Nf3d4" is one move written long; a second one shows itself by its piece or its capture.
    if (rest.empty() || std::all_of(rest.front().begin(), rest.front().end(), [](char c) {
          return is_rank(c) || (c >= 'a' && c <= 'h');
        })) {
      continue;
    }
    rest.insert(rest.begin(), first);
    return rest;
  }
  return {};
}

// Is it a word for a piece? Then what follows may be a file and a square in one ("knight fd7").
bool names_piece(std::string_view word) {
  for (const auto& entry : grammar::grammar().vocabulary(std::string(word))) {
    if (entry.unit == grammar::Unit::kPiece) return true;
  }
  return false;
}

// Pieces of one written word, each a token.
std::vector<std::string> pieces_of(std::string_view s) {
  std::vector<std::string> out;
  s = without_move_number(s);
  if (s.empty()) return out;
  if (is_castling(s)) {
    out.emplace_back(s);
    return out;
  }
  const std::string low = lowered(s);
  // "xx", "xxx": a row of takes.
  if (low.find_first_not_of('x') == std::string::npos) {
    for (std::size_t i = 0; i < low.size(); ++i) out.emplace_back("x");
    return out;
  }
  // "exfgxf": captures by file letters fused.
  if (low.size() >= 6 && low.size() % 3 == 0) {
    bool fused = true;
    for (std::size_t i = 0; i < low.size(); i += 3) {
      fused = fused && is_file(low[i]) && low[i + 1] == 'x' && is_file(low[i + 2]);
    }
    if (fused) {
      for (std::size_t i = 0; i < low.size(); i += 3) out.emplace_back(low.substr(i, 3));
      return out;
    }
  }
  // "d4d5", "d7d5": two squares.
  if (low.size() == 4 && is_file(low[0]) && is_rank(low[1]) && is_file(low[2]) && is_rank(low[3])) {
    out.emplace_back(s.substr(0, 2));
    out.emplace_back(s.substr(2));
    return out;
  }
  if (s.size() >= 5) {
    if (auto moves = fused_moves(s); moves.size() >= 2) return moves;
  }
  // "Bishopg5": a piece word and a square.
  if (low.size() > 5 && is_rank(low.back()) && is_file(low[low.size() - 2])) {
    for (std::string_view name : {"knight", "bishop", "rook", "queen", "king", "pawn"}) {
      if (low.size() == name.size() + 2 && low.compare(0, name.size(), name) == 0) {
        out.emplace_back(s.substr(0, name.size()));
        out.emplace_back(s.substr(name.size()));
        return out;
      }
    }
  }
  std::size_t from = 0;
  for (std::size_t i = 0; i <= s.size(); ++i) {
    if (i == s.size() || s[i] == '-' || s[i] == '/' || s[i] == ',') {
      if (i > from) out.emplace_back(s.substr(from, i - from));
      from = i + 1;
    }
  }
  return out;
}

// No word that is spoken is so long. Its first characters stand for it: what costs time for each
// character, or for each pair of them, need not know the rest.
std::string head_of(std::string_view s) {
  std::size_t n = kLongestWord;
  while (n > 0 && (static_cast<unsigned char>(s[n]) & 0xC0) == 0x80) --n;
  return std::string(s.substr(0, n));
}

}  // namespace

std::vector<Token> tokens_of(const transcript::Transcript& t) {
  // A lesson in which words are several tokens each, all the way, is none; what follows stays whole.
  const std::size_t most = 1000 + 2 * t.words.size();
  std::vector<Token> out;
  for (std::uint32_t w = 0; w < t.words.size(); ++w) {
    const transcript::Word& word = t.words[w];
    std::vector<std::string> pieces;
    if (word.text.size() > kLongestWord) {
      pieces = {head_of(word.text)};
    } else if (out.size() > most) {
      pieces = {word.text};
    } else {
      pieces = pieces_of(word.text);
    }
    if (pieces.size() == 1 && pieces[0].size() == 3 && !out.empty() && out.back().mark.empty() &&
        (is_file(pieces[0][0]) || lower(pieces[0][0]) == 'x') && is_file(pieces[0][1]) &&
        is_rank(pieces[0][2]) && names_piece(out.back().norm)) {
      pieces = {pieces[0].substr(0, 1), pieces[0].substr(1)};
    }
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      Token token;
      token.raw = pieces[i];
      token.norm = lowered(pieces[i]);
      token.word = w;
      if (i + 1 == pieces.size()) token.mark = word.trail;
      if (i == 0 && w > 0) {
        token.opens_paragraph = t.words[w - 1].caption != word.caption;
        if (word.timed && t.words[w - 1].timed) {
          token.pause = static_cast<float>(word.start - t.words[w - 1].end);
        }
      } else if (w == 0) {
        token.opens_paragraph = i == 0;
      }
      out.push_back(std::move(token));
    }
  }
  return out;
}

}  // namespace plyscribe::hearing
