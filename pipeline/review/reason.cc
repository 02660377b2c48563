#include "review/reason.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>

#include "board/notation.h"
#include "publish/text.h"

namespace plyscribe::review {
namespace {

using board::PieceType;
using hearing::Reading;

constexpr std::string_view kPieceNames[] = {"",     "pawn",  "knight", "bishop",
                                            "rook", "queen", "king"};

std::string square_name(board::Square s) {
  return {static_cast<char>('a' + board::file_of(s)), static_cast<char>('1' + board::rank_of(s))};
}

// "d", "d or e", "d, e or g"
std::string either(const std::set<std::string>& names) {
  std::string out;
  std::size_t i = 0;
  for (const std::string& name : names) {
    if (i > 0) out += i + 1 == names.size() ? " or " : ", ";
    out += name;
    ++i;
  }
  return out;
}

// The move as the words say it, before anything was put right.
struct AsSaid {
  PieceType piece = PieceType::kNone;
  board::Square to = board::kNoSquare;
};

AsSaid as_said(const Reading& r) {
  AsSaid said;
  if (r.has_to) {
    said.to = static_cast<board::Square>(std::min_element(r.to.begin(), r.to.end()) - r.to.begin());
  }
  if (r.has_piece) {
    said.piece = static_cast<PieceType>(std::min_element(r.piece.begin() + 1, r.piece.end()) -
                                        r.piece.begin());
  } else if (r.has_to) {
    said.piece = PieceType::kPawn;
  }
  return said;
}

bool possible(const AsSaid& said, const board::Position& p) {
  board::MoveList moves;
  p.legal_moves(moves);
  return std::any_of(moves.begin(), moves.end(), [&](board::Move m) {
    return p.type_at(m.from()) == said.piece && m.to() == said.to;
  });
}

// The reading that names `move` at the least cost, and how.
struct Fit {
  const Reading* reading = nullptr;
  hearing::Match match;
};

Fit best_fit(const std::vector<const Reading*>& readings, const board::Position& p,
             board::Move move) {
  Fit best;
  for (const Reading* r : readings) {
    const auto match = hearing::match(*r, p, move, p.gives_check(move));
    if (best.reading == nullptr || match.cost < best.match.cost) best = {r, match};
  }
  return best;
}

// What the other choices differ in from `move`: only the file, only the rank, or more.
void add_choices(const resolve::Mention& mention, const board::Position& p, board::Move move,
                 const AsSaid& said, std::vector<std::string>& parts) {
  std::set<std::string> letters, digits, moves;
  const std::string own = board::to_san(p, move);
  bool elsewhere = false, talk = false;
  const auto add = [&](board::Move m) {
    const bool same_piece = p.type_at(m.from()) == p.type_at(move.from());
    const auto file = static_cast<char>('a' + board::file_of(m.to()));
    const auto rank = static_cast<char>('1' + board::rank_of(m.to()));
    if (same_piece && board::rank_of(m.to()) == board::rank_of(move.to()) && m.to() != move.to()) {
      letters.insert({file});
    } else if (same_piece && board::file_of(m.to()) == board::file_of(move.to()) &&
               m.to() != move.to()) {
      digits.insert({rank});
    } else {
      moves.insert(board::to_san(p, m));
    }
  };
  for (const resolve::Choice& c : mention.alternatives) {
    if (c.san == "no move") {
      talk = true;
    } else if (c.san == own) {
      elsewhere = true;
    } else if (const auto m = board::parse_san(p, c.san)) {
      add(*m);
    } else {
      elsewhere = true;  // a move of another position
    }
  }
  const bool misheard_file =
      said.to != board::kNoSquare && board::file_of(said.to) != board::file_of(move.to());
  const bool misheard_rank =
      said.to != board::kNoSquare && board::rank_of(said.to) != board::rank_of(move.to());
  if (!letters.empty() || misheard_file) {
    letters.insert({static_cast<char>('a' + board::file_of(move.to()))});
    parts.push_back("the letter may be " + either(letters));
  }
  if (!digits.empty() || misheard_rank) {
    digits.insert({static_cast<char>('1' + board::rank_of(move.to()))});
    parts.push_back("the digit may be " + either(digits));
  }
  if (!moves.empty()) parts.push_back("it may also be " + either(moves));
  if (elsewhere) parts.push_back("it may belong to another place in the tree");
  if (talk) parts.push_back("it may be only talk");
}

void add_unsaid(const resolve::Decoding& d, std::int32_t node, std::vector<std::string>& parts) {
  std::string moves;
  for (std::int32_t n = d.nodes[static_cast<std::size_t>(node)].parent; n > 0;
       n = d.nodes[static_cast<std::size_t>(n)].parent) {
    const resolve::Node& at = d.nodes[static_cast<std::size_t>(n)];
    if (!at.unsaid) break;
    const board::Position& before = d.nodes[static_cast<std::size_t>(at.parent)].position;
    moves = fmt::format("{}{}{}{}", publish::move_number(before), board::to_san(before, at.move),
                        moves.empty() ? "" : " ", moves);
  }
  if (!moves.empty()) parts.push_back("it needs " + moves + ", which nobody said");
}

std::string join(const std::vector<std::string>& parts) {
  std::string out;
  for (const std::string& part : parts) out += out.empty() ? part : "; " + part;
  return out;
}

}  // namespace

Hearing::Hearing(const hearing::Lattice& lattice, std::size_t words)
    : lattice_(lattice), by_word_(words) {
  for (std::uint32_t i = 0; i < lattice_.readings.size(); ++i) {
    by_word_[lattice_.tokens[lattice_.readings[i].first].word].push_back(i);
  }
}

std::vector<const Reading*> Hearing::of(std::uint32_t first, std::uint32_t last) const {
  std::vector<const Reading*> out;
  if (first >= by_word_.size()) return out;
  for (std::uint32_t i : by_word_[first]) {
    const Reading& r = lattice_.readings[i];
    if (lattice_.tokens[r.last - 1].word + 1 == last) out.push_back(&r);
  }
  return out;
}

std::string reason(const resolve::Mention& mention, const resolve::Decoding& d,
                   const Hearing& hearing) {
  std::vector<std::string> parts;
  if (mention.act == resolve::Act::kLoose) {
    parts.push_back(mention.why.empty() ? "no legal move here fits these words" : mention.why);
    return join(parts);
  }
  if (mention.act == resolve::Act::kIdea) {
    parts.push_back("taken as an idea that was not played");
    std::set<std::string> moves;
    for (const resolve::Choice& c : mention.alternatives) {
      if (c.san != "no move") moves.insert(c.san);
    }
    if (!moves.empty()) parts.push_back(either(moves) + " may have been played");
    return join(parts);
  }
  if (mention.node <= 0) return "said of the start position";
  const resolve::Node& node = d.nodes[static_cast<std::size_t>(mention.node)];
  const board::Position& before = d.nodes[static_cast<std::size_t>(node.parent)].position;
  const Fit fit = best_fit(hearing.of(mention.first_word, mention.last_word), before, node.move);
  AsSaid said;
  if (fit.reading != nullptr) {
    said = as_said(*fit.reading);
    if (said.to != board::kNoSquare && said.piece != PieceType::kNone && !possible(said, before)) {
      parts.push_back(fmt::format("no {} can go to {} here",
                                  kPieceNames[static_cast<std::size_t>(said.piece)],
                                  square_name(said.to)));
    }
    const bool piece_left_open =
        (fit.match.mends & (hearing::kPieceUnsaid | hearing::kMendPiece)) != 0;
    if (piece_left_open && (!fit.reading->has_piece || said.piece == PieceType::kPawn)) {
      parts.push_back("no piece was named");
    } else if ((fit.match.mends & hearing::kMendPiece) != 0) {
      parts.push_back(fmt::format("the piece was heard as {}",
                                  kPieceNames[static_cast<std::size_t>(said.piece)]));
    }
    if ((fit.match.mends & hearing::kTargetUnsaid) != 0 && !fit.reading->has_to) {
      parts.push_back("no square was named");
    }
    if ((fit.match.mends & hearing::kByEar) != 0)
      parts.push_back("read from the sound of the words");
  }
  add_choices(mention, before, node.move, said, parts);
  add_unsaid(d, mention.node, parts);
  if (parts.empty()) parts.push_back("what is said after it does not bear it out");
  return join(parts);
}

}  // namespace plyscribe::review
