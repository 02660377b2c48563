#include "lesson/lesson.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <optional>

#include "board/notation.h"
#include "lesson/annotate.h"
#include "lesson/chapters.h"
#include "lesson/corrections.h"
#include "lesson/credits.h"

namespace plyscribe::lesson {
namespace {

Span span_of(const resolve::Mention& m, const transcript::Transcript& transcript) {
  assert(m.first_word < m.last_word && m.last_word <= transcript.words.size());
  Span span;
  span.first_word = m.first_word;
  span.last_word = m.last_word;
  span.t = round_seconds(transcript.words[m.first_word].start);
  span.t_end = round_seconds(transcript.words[m.last_word - 1].end);
  for (std::uint32_t i = m.first_word; i < m.last_word; ++i) {
    if (i > m.first_word) span.heard += ' ';
    span.heard += transcript.words[i].text;
  }
  return span;
}

// The SAN of an idea that is a move for either side; what is planned is often not for the side to
// move.
std::optional<std::string> idea_san(const board::Position& position, const std::string& idea) {
  if (auto move = board::parse_san(position, idea)) return board::to_san(position, *move);
  if (position.in_check()) return std::nullopt;  // no passing out of check
  board::Position other = position;
  other.set_en_passant(board::kNoSquare);
  other.set_side(~position.side_to_move());
  if (auto move = board::parse_san(other, idea)) return board::to_san(other, *move);
  return std::nullopt;
}

void add_nodes(const resolve::Decoding& decoding, Lesson& lesson) {
  lesson.nodes.reserve(decoding.nodes.size());
  for (const resolve::Node& from : decoding.nodes) {
    Node node;
    node.parent = from.parent;
    node.move = from.move;
    node.position = from.position;
    if (from.parent >= 0) {
      const Node& parent = lesson.nodes[static_cast<std::size_t>(from.parent)];
      node.san = board::to_san(parent.position, from.move);
    }
    node.unsaid = from.unsaid;
    lesson.nodes.push_back(std::move(node));
  }
}

void add_mention(const resolve::Mention& from, Span span, Node& node) {
  Mention mention;
  mention.span = std::move(span);
  mention.said = node.san;
  mention.revisit = from.act == resolve::Act::kRevisit;
  mention.confidence = round_share(from.confidence);
  mention.settled = from.settled;
  if (node.mentions.empty()) {
    node.t = mention.span.t;
    node.confidence = mention.confidence;
    node.status = status_of(mention.confidence, from.as_heard);
    for (const resolve::Choice& c : from.alternatives) {
      node.alternatives.push_back({c.san, round_share(c.share)});
    }
  } else {  // a move is as sure as the surest of its mentions
    node.confidence = std::max(node.confidence, mention.confidence);
    node.status = std::min(node.status, status_of(mention.confidence, from.as_heard));
  }
  node.mentions.push_back(std::move(mention));
}

// Children come after their parents, so one pass from the back hands times and confidences up to
// the moves that nobody named. A move with no named move behind it keeps its parent's time.
void lend_times(Lesson& lesson) {
  constexpr double kNever = std::numeric_limits<double>::infinity();
  struct Loan {
    double t = kNever;
    double confidence = 0;
  };
  std::vector<Loan> earliest(lesson.nodes.size());
  for (std::size_t i = lesson.nodes.size(); i-- > 1;) {
    Node& node = lesson.nodes[i];
    if (node.mentions.empty()) {
      node.t = earliest[i].t;
      node.confidence = earliest[i].confidence;
      node.status = status_of(node.confidence, false);
    }
    Loan& parent = earliest[static_cast<std::size_t>(node.parent)];
    if (node.t < parent.t) parent = {node.t, node.confidence};
  }
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    Node& node = lesson.nodes[i];
    if (node.t == kNever) node.t = lesson.nodes[static_cast<std::size_t>(node.parent)].t;
  }
}

}  // namespace

std::vector<int> nags_of(const Node& node) {
  std::vector<int> nags;
  for (const Judgement& j : node.judgements) {
    if (std::find(nags.begin(), nags.end(), j.nag) == nags.end()) nags.push_back(j.nag);
  }
  return nags;
}

double round_seconds(double t) { return std::round(t * 100) / 100; }
double round_share(double p) { return std::round(p * 10000) / 10000; }

Lesson build_lesson(const resolve::Decoding& decoding, const transcript::Transcript& transcript) {
  Lesson lesson;
  lesson.title = transcript.title;
  lesson.duration = round_seconds(transcript.duration);
  lesson.side = decoding.side;
  lesson.start.moves = decoding.start.moves;
  lesson.start.how = decoding.start.how;
  lesson.start.name = decoding.start.name;
  lesson.start.confidence = round_share(decoding.start.confidence);
  add_nodes(decoding, lesson);
  assert(!lesson.nodes.empty());
  for (const resolve::Mention& m : decoding.mentions) {
    Span span = span_of(m, transcript);
    switch (m.act) {
      case resolve::Act::kPlay:
      case resolve::Act::kRevisit:
        // Node 0 is the start position: coming back to it says no move.
        if (m.node > 0) {
          add_mention(m, std::move(span), lesson.nodes[static_cast<std::size_t>(m.node)]);
        }
        break;
      case resolve::Act::kIdea: {
        Idea idea;
        idea.span = std::move(span);
        idea.node = m.node;
        const auto san = idea_san(lesson.nodes[static_cast<std::size_t>(m.node)].position, m.idea);
        idea.is_move = san.has_value();
        idea.settled = m.settled;
        idea.text = san.value_or(m.idea);
        idea.confidence = round_share(m.confidence);
        lesson.ideas.push_back(std::move(idea));
        break;
      }
      case resolve::Act::kLoose:
        lesson.loose.push_back({std::move(span), m.why});
        break;
    }
  }
  lend_times(lesson);
  annotate(transcript, lesson);
  lesson.credits = credits(transcript, lesson);
  lesson.chapters = chapters_of(lesson);
  lesson.corrections = corrections(transcript, lesson);
  return lesson;
}

}  // namespace plyscribe::lesson
