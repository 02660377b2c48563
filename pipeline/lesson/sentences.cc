#include "lesson/sentences.h"

#include <algorithm>
#include <cassert>

#include "grammar/sayings.h"

namespace plyscribe::lesson {
namespace {

// Where moves stand in the words, in order, without overlap: of moves that share their words, the
// last one, whose position is on the board afterwards.
std::vector<Piece> move_pieces(const Lesson& lesson) {
  std::vector<Piece> pieces;
  const auto add = [&](const Span& span, Piece::Kind kind, NodeId node) {
    Piece piece;
    piece.kind = kind;
    piece.first_word = span.first_word;
    piece.last_word = span.last_word;
    piece.node = node;
    pieces.push_back(piece);
  };
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    for (const Mention& m : lesson.nodes[i].mentions) {
      add(m.span, Piece::Kind::kMove, static_cast<NodeId>(i));
    }
  }
  for (const Idea& idea : lesson.ideas) add(idea.span, Piece::Kind::kIdea, idea.node);
  for (const Loose& loose : lesson.loose) add(loose.span, Piece::Kind::kLoose, 0);
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const Piece& a, const Piece& b) { return a.first_word < b.first_word; });
  std::vector<Piece> apart;
  for (const Piece& p : pieces) {
    if (!apart.empty() && p.first_word < apart.back().last_word) {
      Piece& before = apart.back();
      before.last_word = std::max(before.last_word, p.last_word);
      if (p.kind == Piece::Kind::kMove) {
        before.kind = p.kind;
        before.node = p.node;
      }
    } else {
      apart.push_back(p);
    }
  }
  return apart;
}

const char* sign(Piece::Kind kind) {
  switch (kind) {
    case Piece::Kind::kMove:
      return "<m>";
    case Piece::Kind::kIdea:
      return "<i>";
    case Piece::Kind::kLoose:
      return "<l>";
    case Piece::Kind::kWord:
      break;
  }
  return "";
}

std::string lower(std::string_view word) {
  std::string out(word);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

void add_text(std::string_view text, std::string& to) {
  if (!to.empty()) to += ' ';
  to += text;
}

// The marks behind a word that part clauses and sentences, each once: "..." is one full stop.
void add_marks(std::string_view trail, std::string& to) {
  char last = '\0';
  for (const char c : trail) {
    if (std::string_view(",.;:!?").find(c) == std::string_view::npos || c == last) continue;
    add_text(std::string_view(&c, 1), to);
    last = c;
  }
  if (last == '\0' && trail.find("\xE2\x80\x94") != std::string_view::npos) add_text(",", to);
  if (last == '\0' && trail.find(" -") != std::string_view::npos) add_text(",", to);
}

}  // namespace

std::size_t Sentence::piece_at(std::size_t byte) const {
  const auto it = std::partition_point(pieces.begin(), pieces.end(),
                                       [&](const Piece& p) { return p.begin <= byte; });
  assert(!pieces.empty());
  return it == pieces.begin() ? 0 : static_cast<std::size_t>(it - pieces.begin()) - 1;
}

std::vector<Sentence> sentences_of(const transcript::Transcript& transcript, const Lesson& lesson) {
  const std::vector<Piece> moves = move_pieces(lesson);
  const auto& words = transcript.words;
  std::vector<Sentence> sentences;
  const bool paragraphs = transcript.format == transcript::Format::kStampedText;
  std::size_t next_move = 0;
  for (std::uint32_t i = 0; i < words.size();) {
    const transcript::Word& word = words[i];
    const bool fresh = sentences.empty() || word.sentence != words[i - 1].sentence;
    if (fresh) sentences.emplace_back();
    Sentence& s = sentences.back();
    if (paragraphs && word.caption < transcript.captions.size() &&
        i == transcript.captions[word.caption].first_word) {
      add_text("<p>", s.text);
    }
    Piece piece;
    piece.first_word = i;
    piece.last_word = i + 1;
    if (next_move < moves.size() && moves[next_move].first_word <= i) {
      piece = moves[next_move++];
      piece.first_word = i;
    }
    if (!s.text.empty()) s.text += ' ';
    piece.begin = s.text.size();
    s.text += piece.kind == Piece::Kind::kWord ? grammar::parted_word(lower(word.text))
                                               : sign(piece.kind);
    add_marks(words[piece.last_word - 1].trail, s.text);
    piece.end = s.text.size();
    s.pieces.push_back(piece);
    i = piece.last_word;
  }
  return sentences;
}

Span quote(const transcript::Transcript& transcript, std::uint32_t first, std::uint32_t last) {
  assert(first < last && last <= transcript.words.size());
  Span span;
  span.first_word = first;
  span.last_word = last;
  span.t = round_seconds(transcript.words[first].start);
  span.t_end = round_seconds(transcript.words[last - 1].end);
  for (std::uint32_t i = first; i < last; ++i) {
    const transcript::Word& word = transcript.words[i];
    if (i > first) span.heard += ' ';
    span.heard += word.lead + word.text + word.trail;
  }
  return span;
}

}  // namespace plyscribe::lesson
