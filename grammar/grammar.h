// The data of this folder, compiled: vocabulary of moves, move patterns, cue phrases.
//
//   const Grammar& g = grammar();            // built once from the embedded files
//   g.vocabulary("takes")                    // -> {unit kTakes, cost 0}
//   g.patterns()[0].elements                 // -> PIECE, GO*, TO, CHECK?
//   g.cues_in("<m> instead of")              // -> {index of "instead", ...}
//
// A broken data file is a bug of the build: it asserts. Thread-safe once built.
#ifndef PLYSCRIBE_GRAMMAR_GRAMMAR_H_
#define PLYSCRIBE_GRAMMAR_GRAMMAR_H_

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace plyscribe::grammar {

// The alphabet of move patterns.
enum class Unit : std::uint8_t {
  kPiece, kVictim, kPawn, kFile, kRank, kTo, kFromSquare, kTakes, kGo, kDet, kWith, kFrom, kColor,
  kCheck, kMate, kCastle, kPromote, kEnPassant, kSan, kBoth, kTwice, kSwap, kOff,
};

struct VocabularyEntry {
  Unit unit = Unit::kGo;
  char value = 0;  // piece letter, file, rank digit, s/l for castling, w/b
  float cost = 0;  // nats
};

struct Element {
  Unit unit = Unit::kPiece;
  bool optional = false;  // X? or X*
  bool repeats = false;   // X* or X+
};

struct Pattern {
  std::string name;
  std::vector<Element> elements;
};

class Grammar {
 public:
  Grammar(std::string_view vocabulary, std::string_view patterns, std::string_view cues);
  ~Grammar();
  Grammar(const Grammar&) = delete;
  Grammar& operator=(const Grammar&) = delete;

  // Entries for a phrase of one to four lower-case words; empty if it has none.
  const std::vector<VocabularyEntry>& vocabulary(std::string_view phrase) const;
  std::size_t longest_phrase() const;  // in words
  const std::vector<Pattern>& patterns() const;

  const std::vector<std::string>& cue_names() const;
  // Indices into cue_names() of the cues that occur in text, ascending, each once.
  std::vector<int> cues_in(std::string_view text) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

const Grammar& grammar();

}  // namespace plyscribe::grammar

#endif  // PLYSCRIBE_GRAMMAR_GRAMMAR_H_
