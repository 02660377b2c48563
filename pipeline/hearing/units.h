// The units of spoken moves found in the tokens: piece words, letters, digits, squares, verbs.
//
// Units stand on a line of nodes: node n is the place before the n-th phone of the lesson; every
// token owns at least one. Units found by spelling run from token to token; units found by ear may
// begin and end inside a word ("before" = b + four).
#ifndef PLYSCRIBE_HEARING_UNITS_H_
#define PLYSCRIBE_HEARING_UNITS_H_

#include <cstdint>
#include <vector>

#include "grammar/grammar.h"
#include "hearing/tokens.h"
#include "hearing/written.h"

namespace plyscribe::hearing {

struct UnitArc {
  grammar::Unit unit = grammar::Unit::kGo;
  std::uint32_t to = 0;       // node
  char value = 0;             // for exact units: piece letter, castling side, promotion piece
  bool by_ear = false;
  bool written = false;
  float cost = 0;             // nats
  std::uint32_t costs = 0;    // kPiece, kFile, kRank, kTo: index into UnitGraph::vectors
  std::uint32_t shape = 0;    // kSan: index into UnitGraph::shapes
};

struct UnitGraph {
  std::vector<std::uint32_t> node_of_token;  // size tokens + 1
  std::vector<std::int32_t> token_at_node;   // token that begins at the node, or -1; size nodes + 1
  std::vector<std::vector<UnitArc>> arcs;    // by start node
  std::vector<std::vector<float>> vectors;   // cost vectors
  std::vector<WrittenShape> shapes;
};

UnitGraph find_units(const std::vector<Token>& tokens, Script script);

// Adds the units that are heard in the sounds of the tokens' words.
void add_units_by_ear(const std::vector<Token>& tokens, Script script, UnitGraph& graph);

}  // namespace plyscribe::hearing

#endif  // PLYSCRIBE_HEARING_UNITS_H_
