#include "publish/diagram.h"

#include <fmt/format.h>

#include <array>
#include <cassert>
#include <string_view>

#include "board/notation.h"
#include "embedded/pieces_svg.h"

namespace plyscribe::publish {
namespace {

using board::Color;
using board::PieceType;
using board::Position;
using board::Square;

constexpr int kSquare = 100, kLeft = 60, kTop = 20, kBoard = 8 * kSquare;
constexpr int kWidth = 920, kHeight = 880;

constexpr std::string_view kInk = "#2b2733", kPaper = "#ffffff";
constexpr std::string_view kLight = "#fbf9f6", kDark = "#d2cbd9", kTrace = "#8a5a2b";

constexpr std::array<PieceType, 6> kByWorth{PieceType::kKing,   PieceType::kQueen,
                                            PieceType::kRook,   PieceType::kBishop,
                                            PieceType::kKnight, PieceType::kPawn};

std::string_view name(PieceType type) {
  constexpr std::string_view kNames[] = {"", "pawn", "knight", "bishop", "rook", "queen", "king"};
  return kNames[static_cast<int>(type)];
}

std::string square_name(Square s) {
  return {static_cast<char>('a' + board::file_of(s)), static_cast<char>('1' + board::rank_of(s))};
}

// The <symbol> of a piece in pieces.svg.
std::string_view symbol(PieceType type) {
  const std::string_view all = embedded::pieces_svg;
  const std::size_t begin = all.find(fmt::format("<symbol id=\"piece-{}\"", name(type)));
  constexpr std::string_view kEnd = "</symbol>";
  const std::size_t end = all.find(kEnd, begin);
  assert(begin != all.npos && end != all.npos);
  return all.substr(begin, end + kEnd.size() - begin);
}

class Board {
 public:
  Board(const Position& p, const DiagramOptions& options) : p_(p), options_(options) {}

  std::string draw() {
    squares();
    if (options_.last != board::kNoMove) trace();
    pieces();
    labels();
    side_to_move();
    return std::move(out_);
  }

 private:
  int x(Square s) const {
    const int file = board::file_of(s);
    return kLeft + kSquare * (options_.below == Color::kWhite ? file : 7 - file);
  }
  int y(Square s) const {
    const int rank = board::rank_of(s);
    return kTop + kSquare * (options_.below == Color::kWhite ? 7 - rank : rank);
  }

  // One field, the other squares on it as one path.
  void squares() {
    out_ += fmt::format(
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\" stroke=\"{}\" "
        "stroke-width=\"4\"/>\n",
        kLeft, kTop, kBoard, kBoard, kLight, kInk);
    out_ += fmt::format("<path fill=\"{}\" d=\"", kDark);
    for (Square s = 0; s < 64; ++s) {
      if ((board::file_of(s) + board::rank_of(s)) % 2 == 0) {  // a1 is dark
        out_ += fmt::format("M{} {}h{}v{}h-{}z", x(s), y(s), kSquare, kSquare, kSquare);
      }
    }
    out_ += "\"/>\n";
  }

  void trace() {
    const Square from = options_.last.from(), to = options_.last.to();
    out_ += fmt::format(
        "<circle cx=\"{}\" cy=\"{}\" r=\"13\" fill=\"none\" stroke=\"{}\" stroke-width=\"6\"/>\n",
        x(from) + kSquare / 2, y(from) + kSquare / 2, kTrace);
    out_ += fmt::format(
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"{}\" "
        "stroke-width=\"6\"/>\n",
        x(to) + 5, y(to) + 5, kSquare - 10, kSquare - 10, kTrace);
  }

  void pieces() {
    for (const Color color : {Color::kWhite, Color::kBlack}) {
      const bool white = color == Color::kWhite;
      out_ += fmt::format("<g fill=\"{}\" stroke=\"{}\" color=\"{}\">\n", white ? kPaper : kInk,
                          kInk, white ? kInk : kPaper);
      for (Square s = 0; s < 64; ++s) {
        if (p_.type_at(s) == PieceType::kNone || p_.color_at(s) != color) continue;
        out_ +=
            fmt::format("<use href=\"#piece-{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
                        name(p_.type_at(s)), x(s), y(s), kSquare, kSquare);
      }
      out_ += "</g>\n";
    }
  }

  void labels() {
    out_ += fmt::format(
        "<g font-family=\"sans-serif\" font-size=\"44\" text-anchor=\"middle\" fill=\"{}\">\n",
        kInk);
    for (int i = 0; i < 8; ++i) {
      const Square on_file = board::make_square(i, 0), on_rank = board::make_square(0, i);
      out_ += fmt::format("<text x=\"{}\" y=\"{}\">{}</text>", x(on_file) + kSquare / 2,
                          kTop + kBoard + 44, static_cast<char>('a' + i));
      out_ += fmt::format("<text x=\"{}\" y=\"{}\">{}</text>\n", kLeft / 2,
                          y(on_rank) + kSquare / 2 + 16, i + 1);
    }
    out_ += "</g>\n";
  }

  void side_to_move() {
    const bool white = p_.side_to_move() == Color::kWhite;
    const bool at_foot = p_.side_to_move() == options_.below;
    out_ += fmt::format(
        "<circle cx=\"{}\" cy=\"{}\" r=\"16\" fill=\"{}\" stroke=\"{}\" stroke-width=\"4\"/>\n",
        kLeft + kBoard + 30, at_foot ? kTop + kBoard - 20 : kTop + 20, white ? kPaper : kInk, kInk);
  }

  const Position& p_;
  const DiagramOptions& options_;
  std::string out_;
};

std::string element(const Position& p, const DiagramOptions& options, std::string_view defs) {
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" role=\"img\">\n"
      "<title>{}</title>\n<desc>{}</desc>\n{}{}</svg>\n",
      kWidth, kHeight, position_in_words(p), board::to_fen(p), defs, Board(p, options).draw());
}

}  // namespace

std::string position_in_words(const Position& p) {
  std::string text;
  for (const Color color : {Color::kWhite, Color::kBlack}) {
    text += color == Color::kWhite ? "White:" : " Black:";
    for (const PieceType type : kByWorth) {
      for (Square s = 0; s < 64; ++s) {
        if ((p.pieces(color, type) & board::bit(s)) == 0) continue;
        text += fmt::format(" {} {},", name(type), square_name(s));
      }
    }
    text.back() = '.';
  }
  return text + (p.side_to_move() == Color::kWhite ? " White to move." : " Black to move.");
}

std::string write_diagram(const Position& p, const DiagramOptions& options) {
  std::string defs = "<defs>\n";
  for (const PieceType type : kByWorth) {
    if (p.pieces(type) != 0) defs += std::string(symbol(type)) + "\n";
  }
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + element(p, options, defs + "</defs>\n");
}

std::string diagram_element(const Position& p, const DiagramOptions& options) {
  return element(p, options, "");
}

std::string piece_symbols() {
  std::string out =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"0\" height=\"0\" class=\"outlines\" "
      "aria-hidden=\"true\">\n";
  for (const PieceType type : kByWorth) out += std::string(symbol(type)) + "\n";
  return out + "</svg>\n";
}

}  // namespace plyscribe::publish
