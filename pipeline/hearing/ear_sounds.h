// How near every stretch of sounds in a lesson is to the words that moves are made of.
//
//   EarSounds sounds(tokens, Script::kSpokenWords);
//   sounds.at[node][kFirstFile + 3][2]   // nats: the two phones from the node, heard for "d"
//
// A node stands before every phone. Costs come from the table of hearings, by the words and by
// their phones, and from phones that are near each other (lexicon/channel).
#ifndef PLYSCRIBE_HEARING_EAR_SOUNDS_H_
#define PLYSCRIBE_HEARING_EAR_SOUNDS_H_

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "hearing/tokens.h"
#include "hearing/units.h"
#include "lexicon/channel.h"
#include "lexicon/pronounce.h"

namespace plyscribe::hearing {

constexpr std::size_t kSpan = 15;  // phones a unit or square may cover
constexpr lexicon::Phone kNoPhone = 255;

// The words that moves are made of, in one row: pieces, files, ranks, verbs.
constexpr std::array<std::string_view, 33> kSaid = {
    "",          "pawn",   "knight",  "bishop", "rook", "queen",    "king",         // by PieceType
    "a",         "b",      "c",       "d",      "e",    "f",        "g",      "h",  //
    "1",         "2",      "3",       "4",      "5",    "6",        "7",      "8",  //
    "takes",     "check",  "castles", "to",     "on",   "castling", "castle", "cancel",
    "canceling", "catsels"};  // what castling is mostly heard as
constexpr std::size_t kFirstFile = 7, kFirstRank = 15, kTakes = 23, kCheck = 24, kCastles = 25,
                      kTo = 26, kOn = 27, kCastling = 28, kCastle = 29;

using Ends = std::array<float, kSpan + 1>;      // cost by number of phones covered
using Sounds = std::array<Ends, kSaid.size()>;  // by row of kSaid

// What a token says as it is spelled.
struct Exact {
  bool piece = false, takes = false, check = false, castle = false, go = false;
  int file = -1, rank = -1;
  bool any() const { return piece || takes || check || castle || file >= 0 || rank >= 0; }
};

Exact exact_of(const Token& t);
bool has_digit(std::string_view s);

class EarSounds {
 public:
  EarSounds(const std::vector<Token>& tokens, Script script);

  // A square that whole words were heard for.
  struct SeenSquare {
    std::size_t node, span, square;
    float cost;
  };

  const std::vector<Token>& tokens;
  const bool spoken;
  std::vector<std::uint32_t> node_of_token;  // tokens + 1
  std::vector<std::int32_t> token_at_node;   // token that begins at the node, or -1; nodes + 1
  std::vector<std::size_t> token_of;         // by node
  std::vector<Exact> exact;                  // by token
  std::vector<lexicon::Phone> phones;        // by node; kNoPhone for what can't be pronounced
  std::vector<bool> wall;                    // by node: punctuation before it
  std::vector<Sounds> at;                    // by node
  std::vector<SeenSquare> seen_squares;      // by node
  std::array<float, 8> lost{};               // by file: cost of its not being heard

  bool edge(std::size_t node) const { return token_at_node[node] >= 0; }
  // Cost as ordinary talk, in nats.
  float background(std::size_t from, std::size_t to) const {
    return background_[to] - background_[from];
  }
  // One token, spelled exactly; null for more or less than one.
  const Exact* exact_over(std::size_t from, std::size_t to) const;
  // An exact piece, takes, or one of them and a little word stands before the node.
  bool after_chess_word(std::size_t node) const;

 private:
  void lay_out();
  std::size_t reach(std::size_t node) const;
  void by_phones(std::size_t node);
  void by_sound_of_table(std::size_t node);
  void by_table(std::size_t node);
  void hear(std::size_t node, std::size_t span, const lexicon::Hearing& h, float extra);

  std::array<lexicon::Phones, kSaid.size()> said_;
  std::vector<std::optional<std::size_t>> row_;  // by lexicon::Unit
  std::vector<float> background_;                // by node: of all before it
};

}  // namespace plyscribe::hearing

#endif  // PLYSCRIBE_HEARING_EAR_SOUNDS_H_
