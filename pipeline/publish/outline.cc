#include "publish/outline.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>

#include "board/notation.h"
#include "publish/line_order.h"
#include "publish/text.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::Node;
using lesson::Status;

constexpr std::size_t kColumns = 79;
constexpr std::size_t kTextColumn = 9;  // behind "1:02:05  "
constexpr std::size_t kStep = 2;
constexpr std::size_t kDeepest = 40;  // columns that indenting may take

std::string margin(double t) { return fmt::format("{:>7}  ", clock_text(t)); }

std::string marked(const Node& node) {
  if (node.unsaid) {
    return node.status == Status::kUnsure ? fmt::format("({} [unsure])", node.san)
                                          : fmt::format("({})", node.san);
  }
  if (node.status == Status::kMended) return node.san + "~";
  if (node.status == Status::kUnsure) {
    return fmt::format("{} [heard \"{}\"]", node.san,
                       node.mentions.empty() ? "" : node.mentions.front().span.heard);
  }
  return node.san;
}

// The lines of the tree, one filler for each run of moves.
class Tree {
 public:
  explicit Tree(const Lesson& lesson) : lesson_(lesson) {}

  std::string write() {
    const std::vector<Step> steps = walk(lesson_);
    for (const Step& step : steps) {
      switch (step.kind) {
        case Step::Kind::kMove:
          move(lesson_.nodes[static_cast<std::size_t>(step.node)]);
          break;
        case Step::Kind::kOpen:
          end_line();
          ++depth_;
          break;
        case Step::Kind::kClose:
          end_line();
          --depth_;
          break;
      }
    }
    end_line();
    return std::move(out_);
  }

 private:
  void move(const Node& node) {
    const board::Position& before = lesson_.nodes[static_cast<std::size_t>(node.parent)].position;
    if (at_line_begin_) {
      const std::size_t indent = std::min(kDeepest, depth_ * kStep);
      head_ = margin(node.t) + std::string(indent, ' ');
      filler_ = LineFiller(kColumns - head_.size(), "");
      body_indent_ = kTextColumn + indent;
    }
    if (at_line_begin_ || before.side_to_move() == board::Color::kWhite) {
      filler_.add(move_number(before));
    }
    filler_.add_words(marked(node));
    at_line_begin_ = false;
  }

  // The filler's lines, the first behind the head, the others under its text and a step further.
  void end_line() {
    if (at_line_begin_) return;
    std::string lines = filler_.finish();
    bool first = true;
    for (std::size_t begin = 0; begin < lines.size();) {
      const std::size_t end = lines.find('\n', begin) + 1;
      out_ += first ? head_ : std::string(body_indent_, ' ');
      out_.append(lines, begin, end - begin);
      first = false;
      begin = end;
    }
    at_line_begin_ = true;
  }

  const Lesson& lesson_;
  LineFiller filler_{kColumns};
  std::string head_, out_;
  std::size_t body_indent_ = 0, depth_ = 0;
  bool at_line_begin_ = true;
};

std::string start_text(const Lesson& lesson) {
  std::string text;
  if (lesson.start.moves.empty()) {
    const board::Position& p = lesson.nodes.front().position;
    text = board::to_fen(p) == board::to_fen(board::Position::initial()) ? "the first move"
                                                                         : board::to_fen(p);
  } else {
    board::Position p = board::Position::initial();
    for (const board::Move m : lesson.start.moves) {
      if (p.side_to_move() == board::Color::kWhite) text += move_number(p) + ' ';
      text += board::to_san(p, m) + ' ';
      p = p.after(m);
    }
    text.pop_back();
  }
  std::string why = lesson.start.name;
  if (!lesson.start.how.empty()) why += (why.empty() ? "" : "; ") + lesson.start.how;
  if (lesson.start.confidence < lesson::kSureFrom) why += why.empty() ? "unsure" : "; unsure";
  return why.empty() ? text : fmt::format("{} ({})", text, why);
}

std::string entry(double t, const std::string& text) {
  LineFiller filler(kColumns, std::string(kTextColumn, ' '));
  filler.add(margin(t).substr(0, kTextColumn - 1));
  filler.add_words(text);
  return filler.finish();
}

// Where an idea belongs: the move that stood last on the board.
std::string place(const Lesson& lesson, lesson::NodeId id) {
  const Node& node = lesson.nodes[static_cast<std::size_t>(id)];
  if (node.parent < 0) return "at the start";
  const board::Position& before = lesson.nodes[static_cast<std::size_t>(node.parent)].position;
  return fmt::format("after {} {}", move_number(before), node.san);
}

struct Counts {
  std::map<Status, std::size_t> said;
  std::size_t unsaid = 0;
};

Counts count(const Lesson& lesson) {
  Counts counts;
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    const Node& node = lesson.nodes[i];
    node.unsaid ? ++counts.unsaid : ++counts.said[node.status];
  }
  return counts;
}

std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

}  // namespace

std::string write_summary(const Lesson& lesson) {
  Counts counts = count(lesson);
  std::string text = counted(lesson.nodes.size() - 1, "move", "moves");
  text += fmt::format(": {} clear, {} mended, {} unsure, {} not said", counts.said[Status::kClear],
                      counts.said[Status::kMended], counts.said[Status::kUnsure], counts.unsaid);
  text += "; " + counted(lesson.ideas.size(), "idea", "ideas");
  text += fmt::format("; {} not placed", lesson.loose.size());
  return text;
}

std::string write_outline(const Lesson& lesson) {
  std::string out;
  LineFiller head(kColumns);
  head.add_words(lesson.title);
  out += head.finish();
  head.add_words(fmt::format("for {}, {}; from {}",
                             lesson.side == board::Color::kWhite ? "White" : "Black",
                             clock_text(lesson.duration), start_text(lesson)));
  out += head.finish() + "\n" + Tree(lesson).write();
  if (!lesson.ideas.empty()) {
    out += "\nIdeas\n";
    for (const lesson::Idea& idea : lesson.ideas) {
      out += entry(idea.span.t, fmt::format("{} {} \"{}\"", idea.text, place(lesson, idea.node),
                                            idea.span.heard));
    }
  }
  if (!lesson.loose.empty()) {
    out += "\nNot placed\n";
    for (const lesson::Loose& loose : lesson.loose) {
      out += entry(loose.span.t, fmt::format("\"{}\" {}", loose.span.heard, loose.why));
    }
  }
  out += fmt::format("\n{}\n", write_summary(lesson));
  out += "marks: ~ mended, [heard ...] unsure, (...) not said\n";
  return out;
}

}  // namespace plyscribe::publish
