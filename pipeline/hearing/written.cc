#include "hearing/written.h"

#include <cctype>
#include <string>

namespace plyscribe::hearing {
namespace {

bool is_file(char c) { return c >= 'a' && c <= 'h'; }
bool is_rank(char c) { return c >= '1' && c <= '8'; }
char lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }

// The tail of a written move: [file][rank][x]file[rank], starting at s[i]. Every way to read it.
void read_tail(std::string_view s, WrittenShape shape, std::vector<WrittenShape>& out) {
  const auto add = [&](int ff, int fr, bool takes, int tf, int tr, float cost) {
    WrittenShape full = shape;
    full.from_file = ff;
    full.from_rank = fr;
    full.takes = takes;
    full.to_file = tf;
    full.to_rank = tr;
    full.cost += cost;
    out.push_back(full);
  };
  // Doubled letters are one ("bbd2"), at a cost.
  std::string t;
  float doubled = 0;
  for (char c : s) {
    if (!t.empty() && t.back() == c && (is_file(c) || c == 'x')) {
      doubled += 1.5F;
    } else {
      t.push_back(c);
    }
  }
  const auto file = [&](std::size_t i) { return t[i] - 'a'; };
  const auto rank = [&](std::size_t i) { return t[i] - '1'; };
  std::string form;
  for (char c : t) form.push_back(is_file(c) ? 'f' : is_rank(c) ? 'r' : c == 'x' ? 'x' : '?');
  if (form == "fr") add(-1, -1, false, file(0), rank(1), doubled);
  if (form == "xfr") add(-1, -1, true, file(1), rank(2), doubled);
  if (form == "ffr") add(file(0), -1, false, file(1), rank(2), doubled);
  if (form == "fxfr") add(file(0), -1, true, file(2), rank(3), doubled);
  if (form == "rfr") add(-1, rank(0), false, file(1), rank(2), doubled);
  if (form == "rxfr") add(-1, rank(0), true, file(2), rank(3), doubled);
  if (form == "frfr") add(file(0), rank(1), false, file(2), rank(3), doubled);
  if (form == "frxfr") add(file(0), rank(1), true, file(3), rank(4), doubled);
  if (form == "r" && shape.piece != 0) add(-1, -1, false, -1, rank(0), doubled + 2.5F);
  if (form == "fxf") add(file(0), -1, true, file(2), -1, doubled);
  if (form == "fx") add(file(0), -1, true, -1, -1, doubled + 0.5F);
  if (form == "x" && shape.piece != 0) add(-1, -1, true, -1, -1, doubled);
}

// Files that a character stands for which is none: "86" is a6 or h6, "V6" b6, "S6" f6, "T5" d5.
std::string_view files_like(char c) {
  switch (c) {
    case '8': return "ah";
    case 's': case 'm': return "f";
    case 'v': return "b";
    case 'z': return "c";
    case 't': case 'p': return "d";
    case 'i': return "e";
    default: return "";
  }
}

// A square whose file was heard as another letter or digit, with a piece before it or not; and
// "95": the knight ("nine"), of whose square the file was lost.
void read_odd(std::string_view low, const WrittenShape& shape, std::vector<WrittenShape>& out) {
  if (low.size() < 2 || low.size() > 3 || !is_rank(low.back())) return;
  const char piece = low.size() == 3 ? low[0] : '\0';
  if (piece != 0 && std::string_view("nbrqk").find(piece) == std::string_view::npos) return;
  const char letter = low[low.size() - 2];
  WrittenShape odd = shape;
  odd.to_rank = low.back() - '1';
  if (piece != 0) odd.piece = static_cast<char>(std::toupper(piece));
  for (const char file : files_like(letter)) {
    odd.to_file = file - 'a';
    odd.cost = shape.cost + 2.0F;
    out.push_back(odd);
  }
  if (piece == 0 && letter == '9') {
    odd.piece = 'N';
    odd.to_file = -1;
    odd.cost = shape.cost + 0.5F;
    out.push_back(odd);
  }
}

}  // namespace

std::vector<WrittenShape> written_shapes(std::string_view token) {
  std::vector<WrittenShape> out;
  WrittenShape shape;
  while (!token.empty() && (token.back() == '+' || token.back() == '#' || token.back() == '!' ||
                            token.back() == '?')) {
    if (token.back() == '+') shape.check = true;
    if (token.back() == '#') shape.mate = true;
    token.remove_suffix(1);
  }
  if (token.size() < 2 || token.size() > 8) return out;
  std::string low;
  for (char c : token) low.push_back(lower(c));

  if (low == "o-o" || low == "0-0" || low == "o-o-o" || low == "0-0-0") {
    shape.castle = low.size() == 3 ? 2 : 3;
    out.push_back(shape);
    return out;
  }
  // Promotion: "h8=q", "h8q".
  if (low.size() >= 3) {
    const std::string_view officers = "nbrq";
    if (officers.find(low.back()) != std::string::npos &&
        (low[low.size() - 2] == '=' || low[low.size() - 2] == '8' || low[low.size() - 2] == '1')) {
      shape.promotion = static_cast<char>(std::toupper(low.back()));
      low.pop_back();
      if (low.back() == '=') low.pop_back();
    }
  }
  read_tail(low, shape, out);
  const std::string_view letters = "nbrqk";
  if (letters.find(low[0]) != std::string::npos) {
    WrittenShape with_piece = shape;
    with_piece.piece = static_cast<char>(std::toupper(low[0]));
    if (token[0] == low[0]) with_piece.cost += 0.3F;  // lower case
    // An upper-case B is the piece, rarely the file.
    if (token[0] == 'B') {
      for (WrittenShape& pawn : out) pawn.cost += low.size() == 2 ? 0.3F : 2.5F;
    }
    read_tail(std::string_view(low).substr(1), with_piece, out);
  }
  read_odd(low, shape, out);
  return out;
}

WrittenChannel::WrittenChannel() {
  // Rhyming letters trade places; the rest seldom do. Common practice, values hand-set.
  const std::string_view rhyme_e = "bcdeg";
  const auto group = [&](std::size_t f) {
    const char c = static_cast<char>('a' + static_cast<char>(f));
    if (rhyme_e.find(c) != std::string_view::npos) return 0;
    if (c == 'a' || c == 'h') return 1;
    return 2;
  };
  for (std::size_t i = 0; i < 8; ++i) {
    for (std::size_t j = 0; j < 8; ++j) {
      file_[i][j] = i == j ? 0.0F : group(i) == group(j) ? 2.5F : 5.0F;
      rank_[i][j] = i == j ? 0.0F : 4.5F;
    }
  }
  for (std::size_t i = 0; i < 7; ++i) {
    for (std::size_t j = 0; j < 7; ++j) piece_[i][j] = i == j ? 0.0F : 5.0F;
  }
}

std::array<float, 64> WrittenChannel::square(int f, int r) const {
  std::array<float, 64> out;
  for (int s = 0; s < 64; ++s) {
    const float by_file = f < 0 ? 1.5F : file(f)[static_cast<std::size_t>(s & 7)];
    const float by_rank = r < 0 ? 1.0F : rank(r)[static_cast<std::size_t>(s >> 3)];
    const bool both = f >= 0 && r >= 0 && f != (s & 7) && r != (s >> 3);
    out[static_cast<std::size_t>(s)] = by_file + by_rank + (both ? 4.0F : 0.0F);
  }
  return out;
}

board::PieceType piece_of(char letter) {
  switch (letter) {
    case 'N': return board::PieceType::kKnight;
    case 'B': return board::PieceType::kBishop;
    case 'R': return board::PieceType::kRook;
    case 'Q': return board::PieceType::kQueen;
    case 'K': return board::PieceType::kKing;
    default: return board::PieceType::kPawn;
  }
}

const WrittenChannel& written_channel() {
  static const WrittenChannel instance;
  return instance;
}

}  // namespace plyscribe::hearing
