#include "hearing/units.h"

#include <algorithm>
#include <string>

namespace plyscribe::hearing {
namespace {

using grammar::Unit;
using grammar::VocabularyEntry;

bool is_file(char c) { return c >= 'a' && c <= 'h'; }
bool is_rank(char c) { return c >= '1' && c <= '8'; }

template <typename Array>
std::uint32_t store(UnitGraph& g, const Array& costs) {
  g.vectors.emplace_back(costs.begin(), costs.end());
  return static_cast<std::uint32_t>(g.vectors.size() - 1);
}

class Finder {
 public:
  Finder(const std::vector<Token>& tokens, UnitGraph& g) : tokens_(tokens), g_(g) {}

  void run() {
    for (std::size_t t = 0; t < tokens_.size(); ++t) {
      spelled(t);
      letters_and_digits(t);
      written(t);
    }
  }

 private:
  void add(std::size_t from, std::size_t to, UnitArc arc) {
    arc.to = g_.node_of_token[to];
    g_.arcs[g_.node_of_token[from]].push_back(arc);
  }

  // Phrases of the vocabulary. A phrase does not run over punctuation.
  void spelled(std::size_t t) {
    const grammar::Grammar& grammar = grammar::grammar();
    std::string phrase;
    for (std::size_t n = 0; n < grammar.longest_phrase() && t + n < tokens_.size(); ++n) {
      if (n > 0) {
        if (!tokens_[t + n - 1].mark.empty()) break;
        phrase.push_back(' ');
      }
      phrase += tokens_[t + n].norm;
      for (const VocabularyEntry& entry : grammar.vocabulary(phrase)) {
        UnitArc arc;
        arc.unit = entry.unit;
        arc.value = entry.value;
        arc.cost = entry.cost;
        if (entry.unit == Unit::kPiece) {
          arc.costs = store(g_, written_channel().piece(piece_of(entry.value)));
        } else if (entry.unit == Unit::kRank) {
          arc.costs = store(g_, written_channel().rank(entry.value - '1'));
        }
        add(t, t + n + 1, arc);
      }
    }
  }

  bool digit_token(std::size_t t, int& rank, float& cost) const {
    if (t >= tokens_.size()) return false;
    if (tokens_[t].norm.size() == 1 && is_rank(tokens_[t].norm[0])) {
      rank = tokens_[t].norm[0] - '1';
      cost = 0;
      return true;
    }
    for (const VocabularyEntry& entry : grammar::grammar().vocabulary(tokens_[t].norm)) {
      if (entry.unit == Unit::kRank) {
        rank = entry.value - '1';
        cost = entry.cost;
        return true;
      }
    }
    return false;
  }

  void letters_and_digits(std::size_t t) {
    const std::string& norm = tokens_[t].norm;
    if (norm.size() == 1 && is_file(norm[0])) {
      UnitArc arc;
      arc.unit = Unit::kFile;
      arc.value = norm[0];
      arc.cost = norm[0] == 'a' && tokens_[t].raw == "a" ? 1.0F : 0.0F;
      arc.costs = store(g_, written_channel().file(norm[0] - 'a'));
      add(t, t + 1, arc);
      int rank = 0;
      float cost = 0;
      if (tokens_[t].mark.empty() && digit_token(t + 1, rank, cost)) {
        UnitArc square;
        square.unit = Unit::kTo;
        square.cost = arc.cost + cost;
        square.costs = store(g_, written_channel().square(norm[0] - 'a', rank));
        add(t, t + 2, square);
      }
    }
    if (norm.size() == 1 && is_rank(norm[0])) {
      UnitArc arc;
      arc.unit = Unit::kRank;
      arc.value = norm[0];
      arc.costs = store(g_, written_channel().rank(norm[0] - '1'));
      add(t, t + 1, arc);
    }
  }

  void written(std::size_t t) {
    for (const WrittenShape& shape : written_shapes(tokens_[t].raw)) {
      const bool bare = shape.piece == 0 && shape.from_file < 0 && shape.from_rank < 0 &&
                        !shape.takes && shape.castle == 0 && shape.promotion == 0;
      UnitArc arc;
      arc.cost = shape.cost;
      arc.written = true;
      if (bare) {  // a square, whatever piece goes there
        arc.unit = Unit::kTo;
        arc.costs = store(g_, written_channel().square(shape.to_file, shape.to_rank));
        add(t, t + 1, arc);
        continue;
      }
      g_.shapes.push_back(shape);
      arc.unit = Unit::kSan;
      arc.shape = static_cast<std::uint32_t>(g_.shapes.size() - 1);
      add(t, t + 1, arc);
    }
  }

  const std::vector<Token>& tokens_;
  UnitGraph& g_;
};

}  // namespace

UnitGraph find_units(const std::vector<Token>& tokens, Script script) {
  UnitGraph g;
  add_units_by_ear(tokens, script, g);
  Finder(tokens, g).run();
  return g;
}

}  // namespace plyscribe::hearing
