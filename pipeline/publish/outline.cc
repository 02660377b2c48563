#include "publish/outline.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <string_view>
#include <utility>

#include "board/notation.h"
#include "publish/line_order.h"
#include "publish/nag_words.h"
#include "publish/text.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::Node;
using lesson::Status;

constexpr std::size_t kNarrowest = 40;
constexpr std::size_t kTextColumn = 9;  // behind "1:02:05  "
constexpr std::size_t kBar = 2;         // columns of "│ "

// What a piece of text is, for its colour.
enum class Ink : std::uint8_t { kPlain, kHeading, kAside, kTime, kMended, kUnsure };

// The numbers are those of ECMA-48, section 8.3.117.
std::string_view sgr(Ink ink) {
  switch (ink) {
    case Ink::kHeading:
      return "1";
    case Ink::kAside:
      return "2";
    case Ink::kTime:
      return "36";
    case Ink::kMended:
      return "32";
    case Ink::kUnsure:
      return "33";
    case Ink::kPlain:
      break;
  }
  return "";
}

// Text of the transcript, harmless in a terminal.
std::string plain(std::string_view text) {
  // ARABIC LETTER MARK and the marks, embeddings, overrides and isolates of direction.
  static constexpr std::pair<std::string_view, std::string_view> kUnsafe[] = {{"\u061C", "\u061C"},
                                                                              {"\u200E", "\u200F"},
                                                                              {"\u202A", "\u202E"},
                                                                              {"\u2066", "\u2069"},
                                                                              {"\u0080", "\u009F"}};
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    std::size_t n = 1;
    while (i + n < text.size() && (static_cast<unsigned char>(text[i + n]) & 0xC0) == 0x80) ++n;
    const std::string_view letter = text.substr(i, n);
    const auto byte = static_cast<unsigned char>(letter[0]);
    const bool unsafe = byte < 0x20 || byte == 0x7F ||
                        std::any_of(std::begin(kUnsafe), std::end(kUnsafe), [&](const auto& range) {
                          return letter.size() == range.first.size() && letter >= range.first &&
                                 letter <= range.second;
                        });
    if (unsafe) {
      out += "\uFFFD";
    } else {
      out += letter;
    }
    i += n;
  }
  return out;
}

// "Nf3" and "Nxf3+" are heard alike: captures and checks are seldom said.
std::string bare(std::string_view move) {
  std::string out;
  for (const char c : move) {
    if (std::string_view("x+#=.,").find(c) == std::string_view::npos) out += c;
  }
  return out;
}

// The PGN standard's suffixes for the numbers 1 to 6.
std::string_view suffix(const Node& node) {
  static constexpr std::string_view kSuffixes[] = {"", "!", "?", "!!", "??", "!?", "?!"};
  for (const int nag : lesson::nags_of(node)) {
    if (nag >= 1 && nag <= 6) return kSuffixes[nag];
  }
  return "";
}

class Outline {
 public:
  Outline(const Lesson& lesson, const OutlineStyle& style)
      : lesson_(lesson),
        style_(style),
        columns_(std::max(style.columns, kNarrowest)),
        deepest_((columns_ - kTextColumn) / 2 / kBar) {}

  std::string write() {
    head();
    tree();
    if (!lesson_.ideas.empty()) {
      heading("Ideas");
      for (const lesson::Idea& idea : lesson_.ideas) {
        entry(idea.span.t, fmt::format("{} {}", idea.text, place(idea.node)), idea.span.heard);
      }
    }
    if (!lesson_.loose.empty()) {
      heading("Not placed");
      for (const lesson::Loose& loose : lesson_.loose)
        entry(loose.span.t, "", loose.span.heard, plain(loose.why));
    }
    out_ += '\n';
    paragraph(Ink::kPlain, write_summary(lesson_));
    paragraph(Ink::kAside, "~ misheard and mended, [ ] unsure, with the words heard, ( ) not said");
    return std::move(out_);
  }

 private:
  // Each word by itself, so that no colour runs over the end of a line.
  std::string paint(Ink ink, std::string_view words) const {
    if (!style_.colour || ink == Ink::kPlain) return std::string(words);
    std::string out;
    while (!words.empty()) {
      const std::size_t end = std::min(words.find(' '), words.size());
      if (end > 0) out += fmt::format("\x1b[{}m{}\x1b[0m", sgr(ink), words.substr(0, end));
      if (end < words.size()) out += ' ';
      words.remove_prefix(std::min(end + 1, words.size()));
    }
    return out;
  }

  void paragraph(Ink ink, std::string_view words) {
    LineFiller filler(columns_);
    filler.add_words(paint(ink, words));
    out_ += filler.finish();
  }
  void heading(std::string_view words) {
    out_ += '\n';
    paragraph(Ink::kHeading, words);
  }
  std::string margin(double t) const {
    const std::string clock = clock_text(t);
    return std::string(clock.size() < 7 ? 7 - clock.size() : 0, ' ') + paint(Ink::kTime, clock) +
           "  ";
  }
  std::string bars() const {
    std::string out;
    const std::string bar = paint(Ink::kAside, style_.utf8 ? "│" : "|") + ' ';
    for (std::size_t i = 0; i < std::min(depth_, deepest_); ++i) out += bar;
    return out;
  }

  void head() {
    paragraph(Ink::kHeading, plain(lesson_.title));
    paragraph(Ink::kPlain, fmt::format("for {}, {}; from {}",
                                       lesson_.side == board::Color::kWhite ? "White" : "Black",
                                       clock_text(lesson_.duration), start_text()));
    out_ += '\n';
  }

  std::string start_text() const {
    std::string text;
    const bool initial =
        lesson_.start.moves.empty() &&
        board::to_fen(lesson_.nodes.front().position) == board::to_fen(board::Position::initial());
    if (initial) {
      text = "the first move";
    } else if (lesson_.start.moves.empty()) {
      text = board::to_fen(lesson_.nodes.front().position);
    } else {
      board::Position p = board::Position::initial();
      for (const board::Move m : lesson_.start.moves) {
        if (p.side_to_move() == board::Color::kWhite) text += move_number(p) + ' ';
        text += board::to_san(p, m) + ' ';
        p = p.after(m);
      }
      text.pop_back();
    }
    std::string why = plain(lesson_.start.name);
    const auto add = [&](std::string_view more) {
      if (!why.empty()) why += "; ";
      why += more;
    };
    if (!lesson_.start.how.empty() && !initial) add(lesson_.start.how);
    if (lesson_.start.confidence < lesson::kSureFrom) add("unsure");
    return why.empty() ? text : fmt::format("{} ({})", text, why);
  }

  void tree() {
    for (const Step& step : walk(lesson_)) {
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
  }

  void move(const Node& node) {
    const board::Position& before = lesson_.nodes[static_cast<std::size_t>(node.parent)].position;
    if (at_line_begin_) {
      head_ = margin(node.t) + bars();
      filler_ = LineFiller(columns_ - columns(head_), "");
    }
    std::string words = marked(node);
    if (at_line_begin_ || before.side_to_move() == board::Color::kWhite) {
      // One word of the number and the move, so that no number ends a line.
      const std::size_t first = std::min(words.find(' '), words.size());
      filler_.add(paint(Ink::kAside, move_number(before)) + ' ' + words.substr(0, first));
      words.erase(0, first + 1);
    }
    filler_.add_words(words);
    at_line_begin_ = false;
  }

  std::string marked(const Node& node) const {
    std::string text = fmt::format("{}{}", node.san, suffix(node));
    Ink ink = Ink::kPlain;
    if (node.status == Status::kMended && !node.unsaid) {
      text += '~';
      ink = Ink::kMended;
    }
    if (node.unsaid) {
      text = '(' + text + ')';
      ink = Ink::kAside;
    }
    if (node.status == Status::kUnsure) {
      ink = Ink::kUnsure;
      const std::string heard =
          node.mentions.empty() ? "" : plain(node.mentions.front().span.heard);
      text = node.unsaid || bare(heard) == bare(node.san) ? fmt::format("[{}]", text)
                                                          : fmt::format("[{} \"{}\"]", text, heard);
    }
    const bool choice = node.advice == lesson::Advice::kRecommended ||
                        node.advice == lesson::Advice::kAvoided;
    return paint(ink, text) + (choice ? fmt::format(", {}", advice_words(node.advice)) : "");
  }

  // The filler's lines: the first behind the head, the others under its text.
  void end_line() {
    if (at_line_begin_) return;
    const std::string lines = filler_.finish();
    const std::string under = std::string(kTextColumn, ' ') + bars();
    for (std::size_t begin = 0; begin < lines.size();) {
      const std::size_t end = lines.find('\n', begin) + 1;
      out_ += begin == 0 ? head_ : under;
      out_.append(lines, begin, end - begin);
      begin = end;
    }
    at_line_begin_ = true;
  }

  // "1:15  O-O after 3... a6 "castle"", with what is to be said of it behind.
  void entry(double t, std::string_view what, std::string_view heard, std::string_view why = "") {
    LineFiller filler(columns_ - kTextColumn, "");
    filler.add_words(what);
    filler.add_words(
        paint(what.empty() ? Ink::kPlain : Ink::kAside, fmt::format("\"{}\"", plain(heard))));
    filler.add_words(why);
    const std::string lines = filler.finish();
    for (std::size_t begin = 0; begin < lines.size();) {
      const std::size_t end = lines.find('\n', begin) + 1;
      out_ += begin == 0 ? margin(t) : std::string(kTextColumn, ' ');
      out_.append(lines, begin, end - begin);
      begin = end;
    }
  }

  // Where an idea belongs: the move that stood last on the board.
  std::string place(lesson::NodeId id) const {
    const Node& node = lesson_.nodes[static_cast<std::size_t>(id)];
    if (node.parent < 0) return "at the start";
    const board::Position& before = lesson_.nodes[static_cast<std::size_t>(node.parent)].position;
    return fmt::format("after {} {}", move_number(before), node.san);
  }

  const Lesson& lesson_;
  const OutlineStyle& style_;
  const std::size_t columns_, deepest_;
  LineFiller filler_{kNarrowest};
  std::string head_, out_;
  std::size_t depth_ = 0;
  bool at_line_begin_ = true;
};

std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

}  // namespace

std::string write_summary(const Lesson& lesson) {
  std::map<Status, std::size_t> said;
  std::size_t unsaid = 0;
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    const Node& node = lesson.nodes[i];
    node.unsaid ? ++unsaid : ++said[node.status];
  }
  std::string text = counted(lesson.nodes.size() - 1, "move", "moves");
  text += fmt::format(": {} clear, {} mended, {} unsure, {} not said", said[Status::kClear],
                      said[Status::kMended], said[Status::kUnsure], unsaid);
  text += "; " + counted(lesson.ideas.size(), "idea", "ideas");
  text += fmt::format("; {} not placed", lesson.loose.size());
  return text;
}

std::string write_outline(const Lesson& lesson, const OutlineStyle& style) {
  return Outline(lesson, style).write();
}

}  // namespace plyscribe::publish
