#include "publish/sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <set>
#include <string_view>
#include <vector>

#include "board/notation.h"
#include "embedded/sheet_css.h"
#include "publish/diagram.h"
#include "publish/highlights.h"
#include "publish/markup.h"
#include "publish/memo.h"
#include "publish/nag_words.h"
#include "publish/overview.h"
#include "publish/place.h"
#include "publish/sections.h"
#include "publish/text.h"

namespace plyscribe::publish {
namespace {

using board::Color;
using board::Position;
using lesson::Lesson;
using lesson::Node;
using lesson::NodeId;

constexpr std::size_t kOverviewBranches = 22;  // what stands beside a diagram on half a page
constexpr std::size_t kOverviewMoves = 6;      // of one branch
constexpr std::size_t kDeepest = 8;            // steps of indenting
constexpr std::size_t kMeetings = 6;

std::size_t index(NodeId id) { return static_cast<std::size_t>(id); }

std::string_view side_name(Color side) { return side == Color::kWhite ? "White" : "Black"; }

std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

// Lines as place.h writes them, with no break between a move and its number.
std::string unbroken(std::string_view line) {
  std::string out;
  for (const char c : line) {
    if (c == ' ' && out.ends_with('.')) {
      out += "&nbsp;";
    } else {
      out += escaped({&c, 1});
    }
  }
  return out;
}

class Sheet {
 public:
  Sheet(const Lesson& lesson, const Link& link)
      : lesson_(lesson), link_(link), shape_(overview(lesson, kOverviewBranches)) {
    const bool from_initial = lesson.nodes.front().position.key() == Position::initial().key();
    if (from_initial && shape_.branches.size() > 1) front_ = shape_.branches.front().moves.back();
    for (const NodeId id : highlights(lesson)) {
      if (id != front_) highlights_.insert(id);
    }
  }

  std::string write() {
    head();
    out_ += "<body>\n" + piece_symbols();
    title();
    out_ += "<div class=\"flow\">\n";
    remarks(0, 0);
    for (const Section& section : sections(lesson_)) chapter(section);
    memo();
    credits();
    key();
    out_ += "</div>\n</body>\n</html>\n";
    return std::move(out_);
  }

 private:
  const Node& at(NodeId id) const { return lesson_.nodes[index(id)]; }
  std::string name() const { return lesson_.title.empty() ? "Lesson" : lesson_.title; }

  std::string time(double t) const {
    const std::string address = link_.at(t);
    return is_plain_address(address) ? fmt::format("<a class=\"time\" href=\"{}\">{}</a>",
                                                   escaped(address), clock_text(t))
                                     : fmt::format("<span class=\"time\">{}</span>", clock_text(t));
  }

  // "5...&nbsp;Na5", its number only where one is due.
  std::string move(NodeId id, bool numbered) const {
    const Node& node = at(id);
    const Position& before = at(node.parent).position;
    std::string text = escaped(node.san);
    if (node.status == lesson::Status::kUnsure) text = "\u2039" + text + "\u203a";
    if (node.unsaid) text = "<i>" + text + "</i>";
    if (numbered || before.side_to_move() == Color::kWhite) {
      text = move_number(before) + "&nbsp;" + text;
    }
    return text;
  }

  std::string moves(const std::vector<NodeId>& ids, std::string_view between) const {
    std::string text;
    for (const NodeId id : ids) {
      if (!text.empty()) text += between;
      text += move(id, true);
    }
    return text;
  }

  void head() {
    out_ += fmt::format(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<title>{}</title>\n<style>\n{}"
        "@page {{ @bottom-left {{ content: {}; }} }}\n</style>\n</head>\n",
        escaped(name()), embedded::sheet_css, style_string(name()));
  }

  void title() {
    out_ += fmt::format("<header>\n<h1>{}</h1>\n<p>For {}, {}, {}", escaped(name()),
                        side_name(lesson_.side), clock_text(lesson_.duration),
                        counted(lesson_.nodes.size() - 1, "move", "moves"));
    if (!lesson_.start.name.empty() && lesson_.start.name != lesson_.title) {
      out_ += fmt::format("; {}", escaped(lesson_.start.name));
    }
    if (is_plain_address(lesson_.media)) {
      out_ += fmt::format("; <a href=\"{}\">recording</a>", escaped(lesson_.media));
    }
    out_ += "</p>\n</header>\n<div class=\"opening\">\n";
    front_picture();
    branches();
    out_ += "</div>\n";
  }

  // The lesson's start, or where it first branches if it starts as every game does.
  void front_picture() {
    const Node& node = at(front_);
    const std::string line = line_to(lesson_, front_);
    board::Move last = node.move;
    if (front_ == 0 && !lesson_.start.moves.empty()) last = lesson_.start.moves.back();
    out_ += fmt::format("<figure class=\"start\">\n{}<figcaption>{}{}</figcaption>\n</figure>\n",
                        diagram_element(node.position, {.below = lesson_.side, .last = last}),
                        line.empty() ? "The start" : unbroken(line),
                        lesson_.start.confidence < lesson::kSureFrom
                            ? ". <b>It is not certain that the lesson begins here.</b>"
                            : "");
  }

  void branches() {
    out_ += "<nav>\n<h2>Overview</h2>\n<ul>\n";
    for (const Branch& branch : shape_.branches) {
      const std::size_t shown = std::min(branch.moves.size(), kOverviewMoves);
      out_ += fmt::format("<li class=\"in{}\"><a href=\"#m{}\">", std::min(branch.depth, kDeepest),
                          branch.moves.front());
      for (std::size_t i = 0; i < shown; ++i) {
        out_ += (i > 0 ? " " : "") + move(branch.moves[i], i == 0);
      }
      out_ += fmt::format("{}</a> {}</li>\n", shown < branch.moves.size() ? " \u2026" : "",
                          time(at(branch.moves.front()).t));
    }
    out_ += "</ul>\n";
    if (shape_.left_out > 0) {
      out_ +=
          fmt::format("<p class=\"note\">{} that {} talked of least {} left out here.</p>\n",
                      counted(shape_.left_out, "branch", "branches"),
                      shape_.left_out == 1 ? "was" : "were", shape_.left_out == 1 ? "is" : "are");
    }
    out_ += "</nav>\n";
  }

  void chapter(const Section& section) {
    out_ += "<section>\n";
    if (section.title.empty()) {
      out_ += "<h2>The lines</h2>\n";
    } else {
      out_ += fmt::format("<h2>{} {}</h2>\n", escaped(section.title), time(section.t));
    }
    for (const NodeId root : section.roots) {
      const NodeId from = at(root).parent;
      if (from > 0) {
        out_ +=
            fmt::format("<p class=\"way\">After {}:</p>\n", unbroken(choices_to(lesson_, from)));
      }
      for (const Paragraph& paragraph : paragraphs(lesson_, section, root)) lines(paragraph);
    }
    out_ += "</section>\n";
  }

  // The paragraph's moves, interrupted by what stands in blocks of its own: remarks and diagrams.
  void lines(const Paragraph& paragraph) {
    bool open = false;
    for (const NodeId id : paragraph.moves) {
      if (!open) {
        out_ += fmt::format("<p class=\"line in{}\">{}", std::min(paragraph.depth, kDeepest),
                            time(at(id).t));
      }
      out_ += fmt::format("<span class=\"move\" id=\"m{}\">{}</span>{} ", id, move(id, !open),
                          opinion(at(id)));
      open = true;
      const bool pictured = highlights_.contains(id);
      if (at(id).remarks.empty() && !pictured) continue;
      out_ += "</p>\n";
      open = false;
      remarks(id, paragraph.depth);
      if (pictured) figure(id);
    }
    if (open) out_ += "</p>\n";
  }

  // What was said of the move or the position, in a word or two.
  std::string opinion(const Node& node) const {
    std::string text;
    const auto add = [&](std::string_view words) {
      text += fmt::format("{}{}", text.empty() ? "" : ", ", words);
    };
    if (const auto advice = advice_words(node.advice); !advice.empty()) add(advice);
    for (const int nag : lesson::nags_of(node)) add(nag_words(nag));
    return text.empty() ? text : fmt::format(" <span class=\"opinion\">{}</span>", text);
  }

  void remarks(NodeId id, std::size_t depth) {
    for (const lesson::Span& remark : at(id).remarks) {
      out_ += fmt::format("<p class=\"remark in{}\">{}\u201c{}\u201d</p>\n",
                          std::min(depth, kDeepest), time(remark.t), escaped(remark.heard));
    }
  }

  void figure(NodeId id) {
    const Node& node = at(id);
    out_ += fmt::format("<figure>\n{}<figcaption>After {} {}{}</figcaption>\n</figure>\n",
                        diagram_element(node.position, {.below = lesson_.side, .last = node.move}),
                        move(id, true), time(node.t), ideas(id));
  }

  std::string ideas(NodeId id) const {
    std::string text;
    std::set<std::string_view> named;
    for (const lesson::Idea& idea : lesson_.ideas) {
      if (idea.node != id || !named.insert(idea.text).second) continue;
      text += (text.empty() ? "<br>In the air: " : ", ") + escaped(idea.text);
    }
    return text;
  }

  void memo() {
    const std::vector<Rule> all = rules(lesson_);
    std::vector<Meeting> met = meetings(lesson_);
    if (met.size() > kMeetings) met.resize(kMeetings);
    if (all.empty() && met.empty()) return;
    out_ += "<section class=\"memo\">\n<h2>What to remember</h2>\n<ul>\n";
    for (const Rule& rule : all) {
      out_ +=
          fmt::format("<li>{}: ", rule.at > 0 ? "After " + unbroken(choices_to(lesson_, rule.at))
                                              : "At the start");
      if (!rule.play.empty()) out_ += fmt::format("<b>{}</b>", moves(rule.play, " or "));
      if (!rule.avoid.empty()) {
        out_ += fmt::format("{}not {}", rule.play.empty() ? "" : ", ", moves(rule.avoid, " or "));
      }
      if (!rule.words.empty()) out_ += fmt::format(" (\u201c{}\u201d)", escaped(rule.words));
      out_ += fmt::format(" {}</li>\n", time(rule.t));
    }
    for (const Meeting& meeting : met) {
      const NodeId parting = meeting_point(lesson_, meeting.first, meeting.second);
      const auto way = [&](NodeId id) {
        return id == parting ? place(lesson_, id) : line_between(lesson_, parting, id);
      };
      out_ += fmt::format("<li>{} gives the same position as {}.</li>\n",
                          unbroken(way(meeting.second)), unbroken(way(meeting.first)));
    }
    out_ += "</ul>\n</section>\n";
  }

  void credits() {
    if (lesson_.credits.empty()) return;
    out_ += "<section class=\"games\">\n<h2>Games and players named</h2>\n<ul>\n";
    for (const lesson::Credit& credit : lesson_.credits) {
      std::string text = escaped(credit.player);
      if (!credit.opponent.empty()) text += " against " + escaped(credit.opponent);
      for (const std::string& part : {credit.event, credit.year}) {
        if (!part.empty()) text += (text.empty() ? "" : ", ") + escaped(part);
      }
      if (text.empty()) text = fmt::format("\u201c{}\u201d", escaped(credit.span.heard));
      out_ += fmt::format("<li>{}, {} {}</li>\n", text, unbroken(place(lesson_, credit.node)),
                          time(credit.span.t));
    }
    out_ += "</ul>\n</section>\n";
  }

  // Only the marks that occur.
  void key() {
    bool unsure = false, unsaid = false;
    for (std::size_t i = 1; i < lesson_.nodes.size(); ++i) {
      unsure |= lesson_.nodes[i].status == lesson::Status::kUnsure;
      unsaid |= lesson_.nodes[i].unsaid;
    }
    out_ += "<section class=\"note\">\n<p>Times are minutes and seconds of the recording.";
    if (unsure) out_ += " \u2039Nf3\u203a: not certain that this move was meant.";
    if (unsaid) out_ += " <i>Nf3</i>: made on the board without being named.";
    if (!lesson_.loose.empty()) {
      out_ += fmt::format(" {} could not be placed and {} not in these lines.",
                          counted(lesson_.loose.size(), "mention of a move", "mentions of moves"),
                          lesson_.loose.size() == 1 ? "is" : "are");
    }
    out_ +=
        " In a diagram, the disc beside the board shows who is to move, the ring and the frame "
        "the last move.</p>\n</section>\n";
  }

  const Lesson& lesson_;
  const Link& link_;
  const Overview shape_;
  NodeId front_ = 0;  // the position on the first page
  std::set<NodeId> highlights_;
  std::string out_;
};

}  // namespace

std::string write_sheet(const Lesson& lesson, const Link& link) {
  return Sheet(lesson, link).write();
}

constinit const Kind kSheetKind = {
    .name = "sheet",
    .files = "sheet.html",
    .about = "study sheet to read or to print: lines, diagrams, advice",
    .needs_original = false,
    .write = [](const Edition& edition) -> Result<std::vector<Output>> {
      return std::vector<Output>{{"sheet.html", write_sheet(edition.lesson, edition.link)}};
    },
};

}  // namespace plyscribe::publish
