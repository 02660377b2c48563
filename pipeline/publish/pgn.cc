#include "publish/pgn.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <vector>

#include "board/notation.h"
#include "publish/kind.h"
#include "publish/line_order.h"
#include "publish/nag_words.h"
#include "publish/text.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::Node;

constexpr std::size_t kColumns = 79;
constexpr std::size_t kBesideLink = 2;  // a mark that hugs it, and the comma behind it
constexpr std::size_t kLongestRemark = 200;
constexpr std::size_t kMostIdeas = 4;

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 || byte == 0x7F;
}

std::string tags(const Lesson& lesson, bool from_initial, std::string_view result,
                 const PgnOptions& options) {
  std::string out;
  const auto tag = [&](std::string_view name, std::string_view value) {
    out += fmt::format("[{} {}]\n", name, tag_value(value));
  };
  tag("Event", lesson.title.empty() ? "?" : lesson.title);
  tag("Site", "?");
  tag("Date", "????.??.??");
  tag("Round", options.round);
  tag("White", "?");
  tag("Black", "?");
  tag("Result", result);
  if (!from_initial) tag("FEN", board::to_fen(lesson.nodes.front().position));
  if (!lesson.media.empty()) tag("Media", lesson.media);
  if (!lesson.start.name.empty()) tag("Opening", lesson.start.name);
  if (!options.section.empty()) tag("Section", options.section);
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

// The address inside a comment: there are no braces in it, and no blanks. Empty if it is longer
// than a line, which would cut it.
std::string comment_link(const Link& link, double t) {
  std::string out;
  for (const char c : link.at(t)) {
    if (c == '{' || c == '}' || c == ' ' || is_control(c)) {
      out += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    } else {
      out += c;
    }
  }
  return columns(out) + kBesideLink > kColumns ? std::string() : out;
}

// Not longer than so many bytes, cut between words.
std::string shortened(const std::string& text) {
  if (text.size() <= kLongestRemark) return text;
  const std::size_t blank = text.rfind(' ', kLongestRemark);
  return text.substr(0, blank == std::string::npos ? 0 : blank) + " ...";
}

// Moves talked of and not played, by the node they were said at.
std::vector<std::string> ideas_by_node(const Lesson& lesson) {
  std::vector<std::vector<std::string>> moves(lesson.nodes.size());
  for (const lesson::Idea& idea : lesson.ideas) {
    auto& list = moves[static_cast<std::size_t>(idea.node)];
    const bool sure = idea.is_move && !idea.settled && idea.confidence >= lesson::kSureFrom;
    if (sure && list.size() < kMostIdeas &&
        std::find(list.begin(), list.end(), idea.text) == list.end()) {
      list.push_back(idea.text);
    }
  }
  std::vector<std::string> texts;
  for (const auto& list : moves) {
    texts.push_back(list.empty() ? ""
                                 : fmt::format("{} {}", list.size() == 1 ? "idea" : "ideas",
                                               fmt::join(list, ", ")));
  }
  return texts;
}

std::string comment(const Node& node, const std::string& ideas, const Link& link) {
  std::string text = clock_text(node.t);
  const std::string address = comment_link(link, node.t);
  const std::string after = address.empty() ? "" : " " + address;
  std::string said;
  if (node.unsaid) said += ", not said";
  if (node.status == lesson::Status::kUnsure) {
    said += ", unsure";
    if (!node.mentions.empty()) said += ": heard '" + node.mentions.front().span.heard + "'";
  }
  if (const auto advice = advice_words(node.advice); !advice.empty()) {
    said += fmt::format(", {}", advice);
  }
  if (!ideas.empty()) said += "; " + ideas;
  for (const lesson::Span& remark : node.remarks) said += "; " + shortened(remark.heard);
  return text + after + comment_text(said);
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

std::string write_pgn(const Lesson& lesson, const PgnOptions& options) {
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
  const std::vector<std::string> ideas = ideas_by_node(lesson);
  for (const Step& step : walk(lesson)) {
    const Node& node = lesson.nodes[static_cast<std::size_t>(step.node)];
    switch (step.kind) {
      case Step::Kind::kMove:
        movetext.move(lesson.nodes[static_cast<std::size_t>(node.parent)].position, node.san);
        for (const int nag : lesson::nags_of(node)) movetext.nag(nag);
        movetext.comment(comment(node, ideas[static_cast<std::size_t>(step.node)], options.link));
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
  return tags(lesson, from_initial, result, options) + "\n" + movetext.finish(result);
}

constinit const Kind kPgnKind = {
    .name = "pgn",
    .files = "lesson.pgn",
    .about = "game file, every line as a variation",
    .needs_original = false,
    .write = [](const Edition& edition) -> Result<std::vector<Output>> {
      return std::vector<Output>{{"lesson.pgn", write_pgn(edition.lesson, {.link = edition.link})}};
    },
};

}  // namespace plyscribe::publish
