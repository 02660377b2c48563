#include "transcript/words.h"

#include <algorithm>
#include <array>

#include "support/limits.h"

namespace plyscribe::transcript {
namespace {

constexpr auto npos = std::string_view::npos;
constexpr std::string_view kDash = "\xE2\x80\x94";
constexpr std::string_view kAsciiMarks = ".,;:!?\"'()[]{}<>*_`~|-";

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}
bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_blank(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }

bool all_digits(std::string_view s) {
  return !s.empty() && std::all_of(s.begin(), s.end(), is_digit);
}

// Length of the mark that s starts (or ends) with; 0 for none.
std::size_t mark_length(std::string_view s, bool at_end) {
  if (s.empty()) return 0;
  if (kAsciiMarks.find(at_end ? s.back() : s.front()) != npos) return 1;
  for (const std::string_view m : {kDash, std::string_view("♪"), std::string_view("•"),
                                   std::string_view("¿"), std::string_view("¡")}) {
    if (at_end ? s.ends_with(m) : s.starts_with(m)) return m.size();
  }
  return 0;
}

// After how many bytes of s, which has no blanks, a new word starts: s.size() where none does.
std::size_t cut(std::string_view s) {
  bool dot_seen = false;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const std::string_view before = s.substr(0, i);
    const auto run_end = [&](std::string_view of) {
      return std::min(s.find_first_not_of(of, i), s.size());
    };
    const char next = i + 1 < s.size() ? s[i + 1] : '\0';
    if (s.substr(i).starts_with(kDash)) return i + kDash.size();
    if (s[i] == '-' && next == '-') return run_end("-");
    if (s[i] == '.' && next == '.') {
      const std::size_t end = run_end(".");
      if (i > 0 && !all_digits(before)) return end;
      i = end - 1;
      continue;
    }
    if ((s[i] == ',' || s[i] == ';') && i > 0 && is_letter(next)) return i + 1;
    if ((s[i] == '!' || s[i] == '?') && i > 0) return run_end("!?.,;:\"')]}");
    if (s[i] == '.') {
      if (i > 1 && !dot_seen && !all_digits(before) && is_upper(next)) return i + 1;
      dot_seen = true;
    }
  }
  return s.size();
}

struct Piece {
  std::size_t begin, text, trail,
      end;  // lead [begin, text), text [text, trail), trail [trail, end)
  bool after_blank;
};

// Sets the marks apart from the word.
Piece strip(std::string_view all, std::size_t begin, std::size_t end, bool after_blank) {
  Piece p{begin, begin, end, end, after_blank};
  while (p.text < end) {
    const std::size_t n = mark_length(all.substr(p.text, end - p.text), false);
    if (n == 0) break;
    p.text += n;
  }
  const std::string_view word = all.substr(p.text, end - p.text);
  std::array<std::ptrdiff_t, 3> unmatched{};  // closing brackets less opening ones
  for (const char c : word) {
    for (std::size_t k = 0; k < 3; ++k) unmatched[k] += (c == ")]}"[k]) - (c == "([{"[k]);
  }
  while (p.trail > p.text) {
    const std::string_view core = all.substr(p.text, p.trail - p.text);
    const std::size_t n = mark_length(core, true);
    if (n == 0) break;
    const std::size_t closing = std::string_view(")]}").find(core.back());
    if (closing != npos && unmatched[closing]-- <= 0) break;  // e8(Q)
    if (core.ends_with("/-") || core.ends_with("+-")) break;
    p.trail -= n;
  }
  return p;
}

std::vector<Piece> cut_pieces(std::string_view s) {
  std::vector<Piece> pieces;
  for (std::size_t i = 0; i < s.size() && pieces.size() <= kMostWords;) {
    const std::size_t blanks = i;
    while (i < s.size() && is_blank(s[i])) ++i;
    std::size_t end = i;
    while (end < s.size() && !is_blank(s[end])) ++end;
    bool after_blank = i > blanks || blanks == 0;
    while (i < end) {
      const std::size_t n = cut(s.substr(i, end - i));
      pieces.push_back(strip(s, i, i + n, after_blank));
      i += n;
      after_blank = false;
    }
  }
  return pieces;
}

// "1." before "e4": the dot is part of the number, not an end of sentence.
void join_move_numbers(std::string_view s, std::vector<Piece>& pieces) {
  for (std::size_t i = 0; i + 1 < pieces.size(); ++i) {
    Piece& p = pieces[i];
    const Piece& next = pieces[i + 1];
    const std::string_view trail = s.substr(p.trail, p.end - p.trail);
    if ((trail == "." || trail == "...") && p.trail - p.text <= 3 &&
        all_digits(s.substr(p.text, p.trail - p.text)) && next.begin == next.text &&
        looks_like_move(s.substr(next.text, next.trail - next.text))) {
      p.trail = p.end;
    }
  }
}

// Of marks that stand alone: do they belong to the word after them, or to the one before?
bool opens_word(std::string_view marks, bool first, bool last) {
  if (marks == "¿" || marks == "¡") return true;
  if (first && !last && marks.find_first_of(".,;:!?") == npos)
    return true;  // "- Yes" at a line's start
  return marks.find_first_not_of("([{\"'") == npos && marks.find_first_of("([{") != npos;
}

}  // namespace

bool ends_sentence(std::string_view trail) {
  const std::size_t end = trail.find_last_of(".!?");
  return end != npos && trail.find_first_of(",;:", end) == npos;
}

bool looks_like_move(std::string_view s) {
  if (s.starts_with("O-O") || s.starts_with("0-0") || s.starts_with("o-o")) return true;
  const auto file = [&](std::size_t i) { return i < s.size() && s[i] >= 'a' && s[i] <= 'h'; };
  const auto rank = [&](std::size_t i) { return i < s.size() && s[i] >= '1' && s[i] <= '8'; };
  const auto takes = [&](std::size_t i) { return i < s.size() && s[i] == 'x'; };
  const auto square = [&](std::size_t i) { return file(i) && rank(i + 1); };
  std::size_t i = 0;
  if (!s.empty() && std::string_view("NBRQK").find(s[0]) != npos) {
    ++i;
    if ((file(i) && !rank(i + 1)) || (rank(i) && (file(i + 1) || takes(i + 1))))
      ++i;  // where it comes from
  } else if (file(0) && takes(1)) {
    ++i;
  }
  if (takes(i)) ++i;
  return square(i);
}

std::vector<Token> split_words(const MappedText& raw) {
  const MappedText normal = normal_form(raw);
  const std::string_view s = normal.text;
  std::vector<Piece> pieces = cut_pieces(s);
  join_move_numbers(s, pieces);
  std::vector<Token> tokens;
  tokens.reserve(pieces.size());
  for (const Piece& p : pieces) {
    Token t;
    t.lead = s.substr(p.begin, p.text - p.begin);
    t.text = s.substr(p.text, p.trail - p.text);
    t.trail = s.substr(p.trail, p.end - p.trail);
    t.origin = normal.origin(p.text, p.trail);
    if (t.text.empty()) {
      if (opens_word(t.lead, tokens.empty(), &p == &pieces.back())) {
        if (t.lead.find_first_of("([{\"'") == npos) t.lead += ' ';
      } else {
        t.trail = p.after_blank && !tokens.empty() ? " " + t.lead : t.lead;
        t.lead.clear();
      }
    }
    tokens.push_back(std::move(t));
  }
  return tokens;
}

}  // namespace plyscribe::transcript
