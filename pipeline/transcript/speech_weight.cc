#include "transcript/speech_weight.h"

#include <algorithm>

#include "transcript/words.h"

namespace plyscribe::transcript {
namespace {

constexpr double kWordBase = 4;  // letters

// Letters of what is said for a written move, with kWordBase for each word after the first:
// "Nxe4+" is "knight takes e4 check", "O-O" is "castles".
double letters_of_move(std::string_view move) {
  double letters = 0, words = 0;
  bool in_square = false;
  for (const char c : move) {
    const bool file = c >= 'a' && c <= 'h', rank = c >= '1' && c <= '8';
    if (c == 'O') return 7;
    if (c == '0' || c == 'o') return move.size() > 2 ? 7 : 1;
    if (std::string_view("NBRQK").find(c) != std::string_view::npos || c == 'x' || c == '+' ||
        c == '#') {
      letters += c == 'K' || c == 'R' ? 4 : c == 'x' || c == 'Q' || c == '+' ? 5 : 6;
      ++words;
    } else if (file || rank) {
      letters += 1;
      words += in_square ? 0 : 1;
    }
    in_square = file;  // a rank after its file is no new word
  }
  return letters + kWordBase * std::max(0.0, words - 1);
}

}  // namespace

double speech_weight(const Word& w) {
  const bool breath = w.trail.find_first_of(".,;:!?") != std::string::npos;
  double letters = 0;
  if (looks_like_move(w.text)) {
    letters = letters_of_move(w.text);
  } else {
    letters = static_cast<double>(std::count_if(w.text.begin(), w.text.end(), [](char c) {
      return (static_cast<unsigned char>(c) & 0xC0) != 0x80 && c != '-' && c != '\'';
    }));
  }
  return kWordBase + std::min(letters, 30.0) + (breath ? 3.0 : 0.0);
}

}  // namespace plyscribe::transcript
