#include "publish/heard_name.h"

#include <algorithm>
#include <cctype>
#include <iterator>
#include <vector>

namespace plyscribe::publish {
namespace {

struct Row {
  std::string_view word;
  char value;
};

constexpr Row kPieces[] = {{"king", 'K'},   {"queen", 'Q'},  {"rook", 'R'},
                           {"bishop", 'B'}, {"knight", 'N'}, {"pawn", 'P'}};
constexpr Row kDigits[] = {{"one", '1'},  {"two", '2'}, {"three", '3'}, {"four", '4'},
                           {"five", '5'}, {"six", '6'}, {"seven", '7'}, {"eight", '8'}};
constexpr std::string_view kLetters = "KQRBN";

template <std::size_t N>
char value_of(const Row (&rows)[N], std::string_view word) {
  const auto* const row =
      std::find_if(std::begin(rows), std::end(rows), [&](const Row& r) { return r.word == word; });
  return row == std::end(rows) ? 0 : row->value;
}

bool is_file(char c) { return c >= 'a' && c <= 'h'; }
bool is_rank(char c) { return c >= '1' && c <= '8'; }
bool is_letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Runs of letters and digits; "Bxe5+" is one.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (is_letter(c) || is_digit(c)) {
      words.back() += c;
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c + 32);
  }
  return out;
}

// A word of notation, such as Nf3, bxc4, e8Q: it ends in a square but for a promotion.
bool read_notation(const std::string& word, HeardName& name) {
  for (std::size_t i = word.size(); i-- > 1;) {
    if (!is_rank(word[i]) || !is_file(word[i - 1])) continue;
    const bool digit_behind = i + 1 < word.size() && is_digit(word[i + 1]);
    if (digit_behind) return false;
    name.square = word.substr(i - 1, 2);
    if (i >= 2 && kLetters.find(word.front()) != std::string_view::npos) name.piece = word.front();
    return true;
  }
  return false;
}

}  // namespace

HeardName name_in(std::string_view heard) {
  HeardName name;
  char file = 0;  // of a square whose rank may be the next word
  for (const std::string& word : words_of(heard)) {
    const std::string low = lower(word);
    if (const char piece = value_of(kPieces, low)) {
      if (name.piece == 0) name.piece = piece;  // "queen takes knight": who moves comes first
      file = 0;
    } else if (low.size() == 1 && is_file(low[0])) {
      file = low[0];
    } else if (const char digit = low.size() == 1 ? low[0] : value_of(kDigits, low);
               file != 0 && is_rank(digit)) {
      name.square = {file, digit};
      file = 0;
    } else {
      file = 0;
      HeardName written = name;
      if (read_notation(word, written)) {
        name.square = written.square;
        if (name.piece == 0) name.piece = written.piece;
      }
    }
  }
  return name;
}

bool fits(const HeardName& name, const board::Position& before, board::Move move) {
  const std::string_view letters = " PNBRQK";
  const char piece = letters[static_cast<std::size_t>(before.type_at(move.from()))];
  if (name.piece != 0 && name.piece != piece && move.promotion() == board::PieceType::kNone) {
    return false;
  }
  if (name.square.empty()) return true;
  const auto named = [&](board::Square s) {
    return name.square[0] == 'a' + board::file_of(s) && name.square[1] == '1' + board::rank_of(s);
  };
  return named(move.to()) ||
         (move.kind() == board::Move::Kind::kEnPassant &&
          named(board::make_square(board::file_of(move.to()), board::rank_of(move.from()))));
}

bool says(const HeardName& name, const board::Position& before, board::Move move) {
  return fits(name, before, move) && !name.square.empty() &&
         (name.piece != 0 || before.type_at(move.from()) == board::PieceType::kPawn);
}

}  // namespace plyscribe::publish
