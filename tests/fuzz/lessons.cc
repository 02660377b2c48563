// Lessons: from bytes, from files, and from words.
#include "tests/fuzz/lessons.h"

#include <algorithm>

#include "board/notation.h"
#include "lesson/lesson_json.h"
#include "publish/kind.h"
#include "publish/pgn.h"
#include "tests/fuzz/target.h"

namespace plyscribe::fuzz {
namespace {

using lesson::Lesson;
using lesson::Node;

class Bytes {
 public:
  explicit Bytes(std::string_view bytes) : rest_(bytes) {}
  bool empty() const { return rest_.empty(); }
  std::size_t below(std::size_t n) {  // 0 where there are no bytes left
    if (rest_.empty()) return 0;
    const auto byte = static_cast<unsigned char>(rest_.front());
    rest_.remove_prefix(1);
    return byte % n;
  }
  std::string text() {
    const std::string out(rest_.substr(0, below(24)));
    rest_.remove_prefix(std::min(out.size(), rest_.size()));
    return out;
  }

 private:
  std::string_view rest_;
};

lesson::Span span(Bytes& bytes, double t) {
  lesson::Span s;
  s.t = t;
  s.t_end = t + static_cast<double>(bytes.below(5));
  s.heard = bytes.text();
  return s;
}

// Something said of a node.
void say(Bytes& bytes, Node& node) {
  switch (bytes.below(8)) {
    case 0:
      node.judgements.push_back({1 + static_cast<int>(bytes.below(255)), span(bytes, node.t)});
      break;
    case 1:
      node.advice = static_cast<lesson::Advice>(bytes.below(5));
      node.counsels.push_back({node.advice, span(bytes, node.t)});
      break;
    case 2:
      node.remarks.push_back(span(bytes, node.t));
      break;
    case 3:
      node.alternatives.push_back({bytes.text(), 0.5});
      node.status = lesson::Status::kUnsure;
      break;
    case 4:
      node.unsaid = node.parent >= 0;
      break;
    case 5:
      if (node.parent >= 0) node.mentions.push_back({span(bytes, node.t), node.san, false, 1});
      break;
    default:
      break;
  }
}

}  // namespace

Lesson lesson_from(std::string_view raw) {
  Bytes bytes(raw);
  Lesson out;
  out.side = bytes.below(2) == 0 ? board::Color::kWhite : board::Color::kBlack;
  board::Position p = board::Position::initial();
  for (std::size_t n = bytes.below(6); n > 0; --n) {
    board::MoveList moves;
    p.legal_moves(moves);
    if (moves.empty()) break;
    out.start.moves.push_back(moves[bytes.below(moves.size())]);
    p = p.after(out.start.moves.back());
  }
  out.title = bytes.text();
  out.start.name = bytes.text();
  out.media = bytes.text();
  Node root;
  root.position = p;
  out.nodes.push_back(root);
  while (!bytes.empty()) {
    const std::size_t parent = out.nodes.size() - 1 - bytes.below(std::min<std::size_t>(out.nodes.size(), 4));
    const board::Position& before = out.nodes[parent].position;
    board::MoveList moves;
    before.legal_moves(moves);
    if (moves.empty()) continue;
    const board::Move move = moves[bytes.below(moves.size())];
    const bool known = std::any_of(out.nodes.begin(), out.nodes.end(), [&](const Node& n) {
      return n.parent == static_cast<lesson::NodeId>(parent) && n.move == move;
    });
    if (known) {
      say(bytes, out.nodes.back());
      continue;
    }
    Node node;
    node.parent = static_cast<lesson::NodeId>(parent);
    node.move = move;
    node.position = before.after(move);
    node.san = board::to_san(before, move);
    node.t = out.duration += static_cast<double>(bytes.below(40));
    say(bytes, node);
    out.nodes.push_back(std::move(node));
    const auto at = static_cast<lesson::NodeId>(out.nodes.size() - 1);
    switch (bytes.below(12)) {
      case 0:
        out.ideas.push_back({span(bytes, out.duration), at, bytes.text(), bytes.below(2) == 1});
        break;
      case 1:
        out.loose.push_back({span(bytes, out.duration), bytes.text()});
        break;
      case 2:
        out.credits.push_back({span(bytes, out.duration), bytes.text(), bytes.text(), bytes.text(),
                               bytes.text(), at});
        break;
      case 3:
        out.chapters.push_back({out.duration, bytes.text(), at});
        break;
      default:
        break;
    }
  }
  return out;
}

void expect_sound(const Lesson& lesson) {
  expect(!lesson.nodes.empty() && lesson.nodes[0].parent == -1, "a lesson has its start");
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    const Node& n = lesson.nodes[i];
    expect(n.parent >= 0 && static_cast<std::size_t>(n.parent) < i, "parents come first");
    const board::Position& before = lesson.nodes[static_cast<std::size_t>(n.parent)].position;
    expect(before.is_legal(n.move), "every move is legal");
    expect(board::to_fen(before.after(n.move)) == board::to_fen(n.position),
           "positions follow the moves");
    expect(board::to_san(before, n.move) == n.san, "moves are named as they are");
    expect(n.confidence >= 0 && n.confidence <= 1 && n.t >= 0, "numbers are in their ranges");
  }
}

// lesson.json: what is read is sound; what is written reads back, and is published as before.
void lesson(std::string_view bytes) {
  const auto read = lesson::read_json(bytes, "l");
  if (!read) return expect_line(read.error().message);
  expect_sound(*read);
  const std::string text = lesson::write_json(*read);
  const auto again = lesson::read_json(text, "l");
  expect(static_cast<bool>(again), again ? "" : again.error().message);
  expect(lesson::write_json(*again) == text, "a lesson reads back the same");
  for (const publish::Kind* kind : publish::kinds()) {
    if (kind->needs_original) continue;
    const auto outputs = kind->write({.lesson = *read});
    if (!outputs) expect_line(outputs.error().message);
  }
  expect_reads_back(*read, publish::write_pgn(*read));
}

}  // namespace plyscribe::fuzz
