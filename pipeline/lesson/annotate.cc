#include "lesson/annotate.h"

#include <algorithm>
#include <bit>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "grammar/sayings.h"
#include "lesson/sentences.h"

namespace plyscribe::lesson {
namespace {

using board::Color;
using grammar::Found;
using grammar::Saying;

// Words between a move and a phrase that may still speak of it.
constexpr std::uint32_t kMoveReach = 25;
constexpr std::uint32_t kPositionReach = 60;
constexpr std::uint32_t kIdeaReach = 8;  // "<i> is premature" speaks of the idea
constexpr std::uint32_t kNextReach = 6;  // "don't take it back. <m>"
constexpr std::uint32_t kJustNamed = 4;  // "<m>, and this is what I recommend"
constexpr std::uint32_t kFresh = 30;
constexpr std::uint32_t kSameBreath = 8;
constexpr std::size_t kShortestRemark = 5;  // words

std::optional<Color> side_of(std::string_view word, Color of_lesson) {
  if (word == "white") return Color::kWhite;
  if (word == "black") return Color::kBlack;
  for (const std::string_view own : {"we", "i", "you", "us", "me"}) {
    if (word == own) return of_lesson;
  }
  for (const std::string_view other : {"he", "she", "they", "him", "her", "them"}) {
    if (word == other) return ~of_lesson;
  }
  return std::nullopt;
}

// The colour named last in the text.
std::optional<Color> colour_in(std::string_view text) {
  const auto last = [&](std::string_view name) {
    const std::size_t at = text.rfind(name);
    return at == std::string_view::npos ? -1 : static_cast<std::ptrdiff_t>(at);
  };
  const std::ptrdiff_t white = last("white"), black = last("black");
  if (white == black) return std::nullopt;
  return white > black ? Color::kWhite : Color::kBlack;
}

Advice advice_of(grammar::CounselKind kind) {
  switch (kind) {
    case grammar::CounselKind::kRecommended:
      return Advice::kRecommended;
    case grammar::CounselKind::kPlayable:
      return Advice::kPlayable;
    case grammar::CounselKind::kAvoided:
      return Advice::kAvoided;
    case grammar::CounselKind::kForCompleteness:
      return Advice::kForCompleteness;
  }
  return Advice::kNone;
}

// In pawns, as beginners' books count.
int material(const board::Position& p, Color side) {
  using board::PieceType;
  int sum = 0;
  for (const auto& [piece, worth] :
       {std::pair(PieceType::kPawn, 1), std::pair(PieceType::kKnight, 3),
        std::pair(PieceType::kBishop, 3), std::pair(PieceType::kRook, 5),
        std::pair(PieceType::kQueen, 9)}) {
    sum += worth * std::popcount(p.pieces(side, piece));
  }
  return sum;
}

class Annotator {
 public:
  Annotator(const transcript::Transcript& transcript, Lesson& lesson)
      : transcript_(transcript),
        lesson_(lesson),
        sentences_(sentences_of(transcript, lesson)),
        children_(lesson.nodes.size(), 0) {
    for (std::size_t i = 1; i < lesson.nodes.size(); ++i) ++children_[index(node(i).parent)];
  }

  void run() {
    for (std::size_t i = 0; i < sentences_.size(); ++i) {
      const Sentence& s = sentences_[i];
      bool remarked = false, referred = false;
      for (const Found& f : grammar::sayings_in(s.text)) {
        switch (f.phrase->saying) {
          case Saying::kRemark:
            if (!remarked) remark(s, f);
            remarked = true;
            break;
          case Saying::kReference:
            if (!referred) lesson_.references.push_back(whole(s));
            referred = true;
            break;
          case Saying::kMove:
          case Saying::kPosition:
          case Saying::kAdvice:
            if (!asks(s, f)) speak(i, f);
            break;
          case Saying::kTalk:
            break;
        }
      }
      for (const Piece& p : s.pieces) {
        if (p.kind == Piece::Kind::kMove) last_ = p;
      }
    }
    for (Node& n : lesson_.nodes) settle(n);
  }

 private:
  static std::size_t index(NodeId id) { return static_cast<std::size_t>(id); }
  const Node& node(std::size_t i) const { return lesson_.nodes[i]; }

  // Is the phrase in the clause that ends in a question mark?
  static bool asks(const Sentence& s, const Found& f) {
    return s.text.ends_with('?') && s.text.find(',', f.end) == std::string::npos;
  }

  Span whole(const Sentence& s) const { return quote(transcript_, s.first_word(), s.last_word()); }

  static std::size_t behind_marks(std::string_view text, std::size_t at) {
    if (text.substr(at).starts_with("m> ")) return at + 3;
    return std::min(text.find_first_not_of(" ,;", at), text.size());
  }

  // The words of the phrase, without the mark behind them.
  Span words_of(const Sentence& s, const Found& f) const {
    // A pattern may begin with the mark behind the word before it, or with the end of "<m>".
    const std::size_t begin = behind_marks(s.text, f.begin);
    Span span = quote(transcript_, s.pieces[s.piece_at(std::min(begin, f.end - 1))].first_word,
                      s.pieces[s.piece_at(f.end - 1)].last_word);
    span.heard.resize(span.heard.size() - transcript_.words[span.last_word - 1].trail.size());
    return span;
  }

  // The piece of the move that stood last on the board when the phrase was said.
  Piece board_at(const Sentence& s, const Found& f) const {
    for (std::size_t i = s.piece_at(f.end - 1) + 1; i-- > 0;) {
      if (s.pieces[i].kind == Piece::Kind::kMove) return s.pieces[i];
    }
    return last_;
  }

  bool speaks_of_an_idea(const Sentence& s, const Found& f) const {
    std::size_t i = s.piece_at(f.begin) + 1;
    const std::uint32_t at = s.pieces[i - 1].first_word;
    while (i-- > 0) {
      const Piece& p = s.pieces[i];
      if (p.kind == Piece::Kind::kMove) return false;
      if (p.kind == Piece::Kind::kIdea || p.kind == Piece::Kind::kLoose) {
        return at < p.last_word + kIdeaReach;
      }
    }
    return false;
  }

  std::optional<NodeId> next_move(std::size_t sentence, const Found& f) const {
    const Piece& phrase = sentences_[sentence].pieces[sentences_[sentence].piece_at(f.end - 1)];
    for (std::size_t i = sentence; i < std::min(sentence + 2, sentences_.size()); ++i) {
      for (const Piece& p : sentences_[i].pieces) {
        if (p.first_word < phrase.last_word || p.kind == Piece::Kind::kWord) continue;
        if (p.kind != Piece::Kind::kMove || p.first_word > phrase.last_word + kNextReach) {
          return std::nullopt;
        }
        return is_own(p.node) ? std::optional(p.node) : std::nullopt;
      }
    }
    return std::nullopt;
  }

  bool is_own(NodeId id) const {
    return id > 0 && node(index(id)).position.side_to_move() != lesson_.side;
  }

  bool has_rival(NodeId id) const { return children_[index(node(index(id)).parent)] > 1; }

  bool named_since(NodeId id, std::uint32_t word, std::uint32_t now) const {
    const auto& mentions = node(index(id)).mentions;
    return std::any_of(mentions.begin(), mentions.end(), [&](const Mention& m) {
      return m.span.first_word >= word && m.span.first_word < now;
    });
  }

  // The move that "it" is, behind a line that ends in this one: the last choice of the lesson's
  // side if that is fresh, else its first choice under the line's heading (the move that was named
  // again when the talk turned to it), else the last.
  NodeId choice_of_line(NodeId id, std::uint32_t now) const {
    std::optional<NodeId> last, first;
    for (NodeId up = id; up > 0; up = node(index(up)).parent) {
      if (is_own(up) && has_rival(up)) {
        if (named_since(up, now - std::min(now, kFresh), now)) return up;
        if (!last) last = up;
        first = up;
      }
      if (node(index(up)).mentions.size() > 1 && first) return *first;
    }
    return last.value_or(id);
  }

  std::optional<NodeId> target(std::size_t sentence, const Found& f) const {
    const Sentence& s = sentences_[sentence];
    if (f.move != std::string_view::npos) return s.pieces[s.piece_at(f.move)].node;
    if (f.phrase->of == grammar::SpokenOf::kNext) return next_move(sentence, f);
    const bool of_move = f.phrase->saying != Saying::kPosition;
    const bool of_line = f.phrase->of == grammar::SpokenOf::kLine;
    if (of_move && !of_line && speaks_of_an_idea(s, f)) return std::nullopt;
    const Piece at = board_at(s, f);
    const std::uint32_t word = s.pieces[s.piece_at(f.begin)].first_word;
    const std::uint32_t reach = f.phrase->saying == Saying::kMove ? kMoveReach : kPositionReach;
    if (word > at.last_word + reach) return std::nullopt;
    const bool just_named = is_own(at.node) && word < at.last_word + kJustNamed;
    return of_line && !just_named ? choice_of_line(at.node, word) : at.node;
  }

  Color side(const Sentence& s, const Found& f, NodeId at) const {
    std::optional<Color> color = side_of(f.side, lesson_.side);
    if (!color) {
      const std::size_t move = s.text.rfind("<m>", f.begin);
      const std::size_t from = move == std::string::npos ? 0 : move;
      color = colour_in(std::string_view(s.text).substr(from, f.end - from));
    }
    if (!color) color = meant_side(*f.phrase, node(index(at)).position);
    return f.phrase->of_other_side ? ~*color : *color;
  }

  Color meant_side(const grammar::Phrase& phrase, const board::Position& p) const {
    if (phrase.whose == grammar::Phrase::Whose::kToMove) return p.side_to_move();
    if (phrase.whose == grammar::Phrase::Whose::kBehind) {
      const int ahead = material(p, Color::kWhite) - material(p, Color::kBlack);
      if (ahead != 0) return ahead > 0 ? Color::kBlack : Color::kWhite;
    }
    return lesson_.side;
  }

  // "I show it for completeness" is two phrases and one advice.
  static bool just_said(const Node& n, const Counsel& counsel) {
    return !n.counsels.empty() && n.counsels.back().advice == counsel.advice &&
           counsel.span.first_word < n.counsels.back().span.last_word + kSameBreath;
  }

  void speak(std::size_t sentence, const Found& f) {
    const std::optional<NodeId> at = target(sentence, f);
    if (!at) return;
    const Sentence& s = sentences_[sentence];
    Node& n = lesson_.nodes[index(*at)];
    if (f.phrase->saying == Saying::kAdvice) {
      const Counsel counsel{advice_of(f.phrase->counsel), words_of(s, f)};
      if (is_own(*at) && !just_said(n, counsel)) n.counsels.push_back(counsel);
      return;
    }
    if (f.phrase->saying == Saying::kMove && *at == 0) return;  // there is no move to judge
    const bool white = side(s, f, *at) == Color::kWhite;
    n.judgements.push_back({white ? f.phrase->nag_white : f.phrase->nag_black, words_of(s, f)});
  }

  void remark(const Sentence& s, const Found& f) {
    if (s.pieces.size() < kShortestRemark) return;
    lesson_.nodes[index(board_at(s, f).node)].remarks.push_back(whole(s));
  }

  // The last word on a move counts, but that it can be played takes back nothing.
  static void settle(Node& n) {
    for (const Counsel& c : n.counsels) {
      const bool weak = c.advice == Advice::kPlayable || c.advice == Advice::kForCompleteness;
      if (!weak || n.advice == Advice::kNone) n.advice = c.advice;
    }
  }

  const transcript::Transcript& transcript_;
  Lesson& lesson_;
  const std::vector<Sentence> sentences_;
  std::vector<std::size_t> children_;
  Piece last_;  // the last move before the sentence; node 0 before the first
};

}  // namespace

void annotate(const transcript::Transcript& transcript, Lesson& lesson) {
  Annotator(transcript, lesson).run();
}

}  // namespace plyscribe::lesson
