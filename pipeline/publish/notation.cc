#include "publish/notation.h"

#include <algorithm>
#include <cstddef>
#include <iterator>

namespace plyscribe::publish {
namespace {

constexpr std::string_view kEnglish = "PNBRQK";
constexpr PieceLetters kLanguages[] = {
    {"Czech", "PJSVDK"},     {"Danish", "BSLTDK"},     {"Dutch", "OPLTDK"},
    {"English", kEnglish},   {"Estonian", "PROVLK"},   {"Finnish", "PRLTDK"},
    {"French", "PCFTDR"},    {"German", "BSLTDK"},     {"Hungarian", "GHFBVK"},
    {"Icelandic", "PRBHDK"}, {"Italian", "PCATDR"},    {"Norwegian", "BSLTDK"},
    {"Polish", "PSGWHK"},    {"Portuguese", "PCBTDR"}, {"Romanian", "PCNTDR"},
    {"Spanish", "PCATDR"},   {"Swedish", "BSLTDK"},
};
constexpr std::string_view kFigurines[] = {"♙", "♘", "♗", "♖", "♕", "♔"};
constexpr std::string_view kNames[] = {"pawn", "knight", "bishop", "rook", "queen", "king"};

std::string with_letters(std::string_view san, std::string_view language) {
  const auto* const row =
      std::find_if(std::begin(kLanguages), std::end(kLanguages),
                   [&](const PieceLetters& l) { return l.language == language; });
  std::string out(san);
  if (row == std::end(kLanguages)) return out;
  for (char& c : out) {
    const std::size_t piece = kEnglish.find(c);
    if (piece != std::string_view::npos) c = row->letters[piece];
  }
  return out;
}

std::string with_figurines(std::string_view san) {
  std::string out;
  for (const char c : san) {
    const std::size_t piece = kEnglish.find(c);
    if (piece == std::string_view::npos) {
      out += c;
    } else {
      out += kFigurines[piece];
    }
  }
  return out;
}

// A square stays whole; a file or rank that tells two pieces apart is a word of its own.
std::string in_words(std::string_view san) {
  std::string out;
  const auto word = [&](std::string_view text) {
    if (!out.empty()) out += ' ';
    out += text;
  };
  const std::string_view body = san.substr(0, san.find_first_of("+#"));
  if (body == "O-O") {
    word("castles kingside");
  } else if (body == "O-O-O") {
    word("castles queenside");
  } else {
    for (std::size_t i = 0; i < body.size(); ++i) {
      const std::size_t piece = kEnglish.find(body[i]);
      const bool square = i + 1 < body.size() && body[i] >= 'a' && body[i] <= 'h' &&
                          body[i + 1] >= '1' && body[i + 1] <= '8';
      if (piece != std::string_view::npos) {
        word(kNames[piece]);
      } else if (body[i] == 'x') {
        word("takes");
      } else if (square) {
        word(body.substr(i++, 2));
      } else if (body[i] != '=') {
        word(body.substr(i, 1));
      }
    }
  }
  if (san.ends_with('+')) word("check");
  if (san.ends_with('#')) word("mate");
  return out;
}

}  // namespace

std::string write_move(std::string_view san, const Notation& notation) {
  switch (notation.style) {
    case NotationStyle::kWords:
      return in_words(san);
    case NotationStyle::kFigurines:
      return with_figurines(san);
    case NotationStyle::kLetters:
      break;
  }
  return san.starts_with('O') ? std::string(san) : with_letters(san, notation.language);
}

std::span<const PieceLetters> piece_languages() { return kLanguages; }

}  // namespace plyscribe::publish
