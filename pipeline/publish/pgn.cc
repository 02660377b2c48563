#include "publish/pgn.h"

#include <fmt/format.h>

#include <cstddef>

#include "board/notation.h"
#include "publish/kind.h"
#include "publish/line_order.h"
#include "publish/text.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::Node;

constexpr std::size_t kColumns = 79;

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 || byte == 0x7F;
}

std::string tags(const Lesson& lesson, bool from_initial, std::string_view result) {
  std::string out;
  const auto tag = [&](std::string_view name, std::string_view value) {
    out += fmt::format("[{} {}]\n", name, tag_value(value));
  };
  tag("Event", lesson.title.empty() ? "?" : lesson.title);
  tag("Site", "?");
  tag("Date", "????.??.??");
  tag("Round", "?");
  tag("White", "?");
  tag("Black", "?");
  tag("Result", result);
  if (!from_initial) tag("FEN", board::to_fen(lesson.nodes.front().position));
  if (!lesson.media.empty()) tag("Media", lesson.media);
  if (!lesson.start.name.empty()) tag("Opening", lesson.start.name);
  if (!from_initial) tag("SetUp", "1");
  return out;
}

const board::Position& main_line_end(const Lesson& lesson) {
  const auto children = ordered_children(lesson);
  std::size_t end = 0;
  while (!children[end].empty()) end = static_cast<std::size_t>(children[end].front());
  return lesson.nodes[end].position;
}

std::string_view result_of(const board::Position& end) {
  if (end.is_checkmate()) return end.side_to_move() == board::Color::kWhite ? "0-1" : "1-0";
  return end.is_stalemate() ? "1/2-1/2" : "*";
}

std::string comment(const Node& node) {
  std::string text = clock_text(node.t);
  if (node.unsaid) text += ", not said";
  if (node.status == lesson::Status::kUnsure) {
    text += ", unsure";
    if (!node.mentions.empty()) text += ": heard '" + node.mentions.front().span.heard + "'";
  }
  for (const lesson::Span& remark : node.remarks) text += "; " + remark.heard;
  return comment_text(text);
}

// Movetext: words that can be broken between any two of them. Brackets hug what they enclose.
class Movetext {
 public:
  void move(const board::Position& before, const std::string& san) {
    if (before.side_to_move() == board::Color::kWhite || number_due_) {
      word(move_number(before));
    }
    word(san);
    number_due_ = false;
  }
  void nag(int number) { word(fmt::format("${}", number)); }
  void comment(const std::string& text) {
    word("{");
    glue_ = true;
    std::string_view rest = text;
    while (!rest.empty()) {
      const std::size_t end = rest.find(' ');
      word(rest.substr(0, end));
      rest = end == std::string_view::npos ? "" : rest.substr(end + 1);
    }
    close("}");
  }
  void open() {
    word("(");
    glue_ = true;
    number_due_ = true;
  }
  void close() { close(")"); }
  std::string finish(std::string_view result) {
    word(result);
    flush();
    return filler_.finish();
  }

 private:
  void close(std::string_view mark) {
    pending_ += mark;
    glue_ = false;
    number_due_ = true;
  }
  void word(std::string_view text) {
    if (!glue_) flush();
    glue_ = false;
    pending_ += text;
  }
  void flush() {
    filler_.add(pending_);
    pending_.clear();
  }

  LineFiller filler_{kColumns};
  std::string pending_;  // the last word, to which a closing mark may still be added
  bool glue_ = false;    // the next word belongs to the opening mark before it
  bool number_due_ = true;
};

}  // namespace

std::string comment_text(std::string_view text) {
  std::string out;
  const auto blank = [&] {
    if (!out.empty() && out.back() != ' ') out += ' ';
  };
  for (const char c : text) {
    if (c == '{') {
      out += '(';
    } else if (c == '}') {
      out += ')';
    } else if (c == '%') {
      blank();
      out += "percent ";
    } else if (c == ' ' || is_control(c)) {
      blank();
    } else {
      out += c;
    }
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

std::string tag_value(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += is_control(c) ? ' ' : c;
  }
  return out + '"';
}

std::string write_pgn(const Lesson& lesson) {
  const Node& root = lesson.nodes.front();
  const board::Position initial = board::Position::initial();
  const bool from_initial =
      !lesson.start.moves.empty() || board::to_fen(root.position) == board::to_fen(initial);

  Movetext movetext;
  board::Position p = initial;
  for (const board::Move m : lesson.start.moves) {
    movetext.move(p, board::to_san(p, m));
    p = p.after(m);
  }
  const bool unsure_start = lesson.start.confidence < lesson::kSureFrom;
  if (!lesson.start.moves.empty() || unsure_start) {
    movetext.comment(fmt::format("{}, the lesson begins here{}", clock_text(0),
                                 unsure_start ? "; unsure of this position" : ""));
  }
  for (const Step& step : walk(lesson)) {
    const Node& node = lesson.nodes[static_cast<std::size_t>(step.node)];
    switch (step.kind) {
      case Step::Kind::kMove:
        movetext.move(lesson.nodes[static_cast<std::size_t>(node.parent)].position, node.san);
        for (const int nag : lesson::nags_of(node)) movetext.nag(nag);
        movetext.comment(comment(node));
        break;
      case Step::Kind::kOpen:
        movetext.open();
        break;
      case Step::Kind::kClose:
        movetext.close();
        break;
    }
  }
  const std::string_view result = result_of(main_line_end(lesson));
  return tags(lesson, from_initial, result) + "\n" + movetext.finish(result);
}

constinit const Kind kPgnKind = {
    .name = "pgn",
    .files = "lesson.pgn",
    .about = "game file, every line as a variation",
    .needs_original = false,
    .write = [](const Edition& edition) -> Result<std::vector<Output>> {
      return std::vector<Output>{{"lesson.pgn", write_pgn(edition.lesson)}};
    },
};

}  // namespace plyscribe::publish
