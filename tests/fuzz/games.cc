// Game files: any bytes are legal trees or an error; any lesson that we write reads back as its tree.
#include <algorithm>

#include "board/notation.h"
#include "publish/kind.h"
#include "publish/line_order.h"
#include "publish/pgn.h"
#include "publish/pgn_reader.h"
#include "tests/fuzz/lessons.h"
#include "tests/fuzz/target.h"

namespace plyscribe::fuzz {

void pgn(std::string_view bytes) {
  const auto games = publish::read_pgn(bytes, "p");
  if (!games) return expect_line(games.error().message);
  for (const publish::PgnGame& game : *games) {
    expect(!game.nodes.empty(), "a game has a start");
    for (std::size_t i = 1; i < game.nodes.size(); ++i) {
      const publish::PgnNode& node = game.nodes[i];
      expect(node.parent >= 0 && static_cast<std::size_t>(node.parent) < i, "parents come first");
      const board::Position& before = game.nodes[static_cast<std::size_t>(node.parent)].position;
      expect(before.is_legal(node.move), "every move is legal");
      expect(before.after(node.move).key() == node.position.key(), "positions follow the moves");
    }
  }
}

void expect_reads_back(const lesson::Lesson& lesson, std::string_view text) {
  const auto games = publish::read_pgn(text, "p");
  expect(static_cast<bool>(games), games ? "" : games.error().message);
  expect(games->size() == 1, "a lesson is one game");
  const std::vector<publish::PgnNode>& read = games->front().nodes;
  const std::size_t before = lesson.start.moves.size();  // moves that reach the start
  expect(read.size() == before + lesson.nodes.size(), "no move is lost and none is new");
  // The walk names the nodes in the order in which the movetext has them.
  std::vector<std::size_t> place(lesson.nodes.size(), before);
  std::size_t next = before;
  for (const publish::Step& step : publish::walk(lesson)) {
    if (step.kind != publish::Step::Kind::kMove) continue;
    const auto id = static_cast<std::size_t>(step.node);
    const publish::PgnNode& node = read[++next];
    place[id] = next;
    expect(node.move == lesson.nodes[id].move, "every move stands in its place");
    expect(static_cast<std::size_t>(node.parent) ==
               place[static_cast<std::size_t>(lesson.nodes[id].parent)],
           "... behind the move that it answers");
  }
  for (std::string_view rest = text; !rest.empty();) {
    const std::size_t end = rest.find('\n');
    expect(end != std::string_view::npos, "the last line ends");
    const std::string_view line = rest.substr(0, end);
    for (const char c : line) {
      expect(static_cast<unsigned char>(c) >= ' ' && c != '\x7F', "no controls in a game file");
    }
    rest.remove_prefix(end + 1);
  }
}

void game_file(std::string_view bytes) {
  const lesson::Lesson lesson = lesson_from(bytes);
  const std::string text = publish::write_pgn(lesson);
  expect_reads_back(lesson, text);
  expect(publish::write_pgn(lesson) == text, "the same lesson gives the same bytes");
  for (const publish::Kind* kind : publish::kinds()) {
    if (kind->needs_original) continue;
    const auto outputs = kind->write({.lesson = lesson});
    if (!outputs) expect_line(outputs.error().message);
  }
}

}  // namespace plyscribe::fuzz
