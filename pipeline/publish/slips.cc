#include "publish/slips.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <string_view>
#include <utility>

#include "publish/decisions.h"
#include "publish/drill_cards.h"
#include "publish/heard_name.h"
#include "publish/nag_words.h"
#include "publish/place.h"
#include "publish/text.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::Node;
using lesson::NodeId;

constexpr std::size_t kColumnsWide = 79;
constexpr std::string_view kIndent = "           ";  // behind "  1:02:05  "

const Node& at(const Lesson& lesson, NodeId id) {
  return lesson.nodes[static_cast<std::size_t>(id)];
}

const board::Position& before(const Lesson& lesson, const Node& node) {
  return at(lesson, node.parent).position;
}

std::vector<Slip> in_time(std::vector<Slip> slips) {
  std::stable_sort(slips.begin(), slips.end(),
                   [](const Slip& a, const Slip& b) { return a.t < b.t; });
  return slips;
}

std::string quoted(std::string_view words) { return fmt::format("\"{}\"", words); }

// Who a judgement speaks for: 1 White stands better, -1 Black, 0 neither (PGN standard, section
// 10). Nothing where it doesn't say: compensation and initiative are no count of who stands better.
std::optional<int> standing(int nag) {
  if (nag >= 10 && nag <= 12) return 0;
  if (nag >= 14 && nag <= 21) return nag % 2 == 0 ? 1 : -1;
  return std::nullopt;
}

bool praises(int nag) { return nag == 1 || nag == 3 || nag == 7 || nag == 8; }
bool blames(int nag) { return nag == 2 || nag == 4 || nag == 6; }

std::string said_at(double t, std::string_view what) {
  return fmt::format("{} ({})", what, clock_text(t));
}

// Two sayings that cannot both be meant, of one move or position.
class Contradictions {
 public:
  explicit Contradictions(const Lesson& lesson) : lesson_(lesson) {}

  std::vector<Slip> find() {
    for (const Decision& decision : decisions(lesson_)) {
      for (const Answer& answer : decision.answers) advice(answer);
    }
    std::map<std::uint64_t, std::vector<NodeId>> by_position;
    for (std::size_t i = 1; i < lesson_.nodes.size(); ++i) {
      by_position[lesson_.nodes[i].position.key()].push_back(static_cast<NodeId>(i));
    }
    for (const auto& [key, nodes] : by_position) standings(nodes);
    return in_time(std::move(slips_));
  }

 private:
  struct Said {
    NodeId node = 0;
    double t = 0;
    std::string what;
  };

  void report(const Said& a, const Said& b) {
    const bool in_order = a.t <= b.t;
    const Said &first = in_order ? a : b, &second = in_order ? b : a;
    slips_.push_back(
        {second.t, fmt::format("{}: {}, but {}", numbered_move(lesson_, first.node),
                               said_at(first.t, first.what), said_at(second.t, second.what))});
  }

  // Of one move: recommended and advised against, recommended and a mistake, avoided and good.
  void advice(const Answer& answer) {
    std::vector<Said> praise, blame;
    for (const NodeId id : answer.nodes) {
      const Node& node = at(lesson_, id);
      for (const lesson::Counsel& c : node.counsels) {
        if (c.advice == lesson::Advice::kRecommended) {
          praise.push_back({id, c.span.t, "recommended, " + quoted(c.span.heard)});
        } else if (c.advice == lesson::Advice::kAvoided) {
          blame.push_back({id, c.span.t, "to be avoided, " + quoted(c.span.heard)});
        }
      }
      for (const lesson::Judgement& j : node.judgements) {
        if (praises(j.nag)) praise.push_back({id, j.span.t, judged(j)});
        if (blames(j.nag)) blame.push_back({id, j.span.t, judged(j)});
      }
    }
    if (!praise.empty() && !blame.empty()) report(praise.front(), blame.front());
  }

  // Of one position: better for one side, and for the other or for neither.
  void standings(const std::vector<NodeId>& nodes) {
    std::vector<std::pair<int, Said>> all;
    for (const NodeId id : nodes) {
      for (const lesson::Judgement& j : at(lesson_, id).judgements) {
        if (const auto side = standing(j.nag)) all.push_back({*side, {id, j.span.t, judged(j)}});
      }
    }
    for (std::size_t i = 1; i < all.size(); ++i) {
      if (all[i].first != all[0].first) {
        report(all[0].second, all[i].second);
        return;
      }
    }
  }

  static std::string judged(const lesson::Judgement& j) {
    return nag_words(j.nag) + ", " + quoted(j.span.heard);
  }

  const Lesson& lesson_;
  std::vector<Slip> slips_;
};

void section(std::string& out, std::string_view title, const std::vector<Slip>& slips) {
  if (slips.empty()) return;
  out += fmt::format("\n{} ({})\n", title, slips.size());
  for (const Slip& slip : slips) {
    LineFiller filler(kColumnsWide, std::string(kIndent));
    filler.add(fmt::format("{:>9} ", clock_text(slip.t)));
    filler.add_words(slip.text);
    out += filler.finish();
  }
}

// A section whose entries stand one behind the other.
void run_on(std::string& out, std::string_view title, const std::vector<Slip>& slips) {
  if (slips.empty()) return;
  out += fmt::format("\n{} ({})\n", title, slips.size());
  LineFiller filler(kColumnsWide, "     ");
  std::string text;
  for (const Slip& slip : slips) {
    text += fmt::format("{}{} {}", text.empty() ? "" : "; ", clock_text(slip.t), slip.text);
  }
  filler.add("    ");
  filler.add_words(text);
  out += filler.finish();
}

// Loose words that name a piece and where it goes, or a capture; "queen on d8" tells where it is.
bool is_move_like(std::string_view heard) {
  const HeardName name = name_in(heard);
  const bool captures =
      heard.find("take") != std::string_view::npos || heard.find('x') != std::string_view::npos;
  const bool stands = heard.find(" on ") != std::string_view::npos;
  return captures || (name.piece != 0 && !name.square.empty() && !stands);
}

bool ends_the_game(const board::Position& p) { return p.is_checkmate() || p.is_stalemate(); }

}  // namespace

std::vector<Slip> two_names(const Lesson& lesson) {
  // The same move of the same position, in whichever line.
  std::map<std::pair<std::uint64_t, std::uint16_t>, std::vector<NodeId>> moves;
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    const Node& node = lesson.nodes[i];
    moves[{before(lesson, node).key(), node.move.bits()}].push_back(static_cast<NodeId>(i));
  }
  std::vector<Slip> out;
  for (const auto& [key, nodes] : moves) {
    const lesson::Span *right = nullptr, *wrong = nullptr;
    for (const NodeId id : nodes) {
      const Node& node = at(lesson, id);
      for (const lesson::Mention& m : node.mentions) {
        const HeardName name = name_in(m.span.heard);
        if (name.square.empty()) continue;
        const lesson::Span*& named = fits(name, before(lesson, node), node.move) ? right : wrong;
        if (named == nullptr) named = &m.span;
      }
    }
    if (right == nullptr || wrong == nullptr) continue;
    out.push_back(
        {wrong->t, fmt::format("{} is {} here and {} at {}", numbered_move(lesson, nodes.front()),
                               quoted(wrong->heard), quoted(right->heard), clock_text(right->t))});
  }
  return in_time(std::move(out));
}

std::vector<Slip> contradictions(const Lesson& lesson) { return Contradictions(lesson).find(); }

std::vector<Slip> heard_otherwise(const Lesson& lesson) {
  std::vector<Slip> out;
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    const Node& node = lesson.nodes[i];
    if (node.status == lesson::Status::kUnsure) continue;
    for (const lesson::Mention& m : node.mentions) {
      const HeardName name = name_in(m.span.heard);
      const bool mended = node.status == lesson::Status::kMended && &m == &node.mentions.front() &&
                          !says(name, before(lesson, node), node.move);
      if (!mended && fits(name, before(lesson, node), node.move)) continue;
      out.push_back({m.span.t, fmt::format("{} for {}", quoted(m.span.heard),
                                           numbered_move(lesson, static_cast<NodeId>(i)))});
    }
  }
  return in_time(std::move(out));
}

std::vector<Slip> not_certain(const Lesson& lesson) {
  std::vector<Slip> out;
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    const Node& node = lesson.nodes[i];
    if (node.status != lesson::Status::kUnsure) continue;
    std::string text = numbered_move(lesson, static_cast<NodeId>(i));
    text += node.mentions.empty() ? ", not said" : " from " + quoted(node.mentions[0].span.heard);
    out.push_back({node.t, std::move(text)});
  }
  return in_time(std::move(out));
}

std::vector<Slip> undecided(const Lesson& lesson) {
  std::vector<Slip> out;
  for (const Gap& gap : gaps(lesson)) {
    if (gap.lack != Lack::kAdvice) continue;
    std::string answers;
    double t = at(lesson, gap.at).t;
    for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
      if (lesson.nodes[i].parent != gap.at) continue;
      answers += (answers.empty() ? "" : ", ") + lesson.nodes[i].san;
      t = std::max(t, lesson.nodes[i].t);
    }
    out.push_back({t, fmt::format("{}: {}", place(lesson, gap.at), answers)});
  }
  return in_time(std::move(out));
}

std::vector<Slip> without_verdict(const Lesson& lesson) {
  std::vector<std::size_t> children(lesson.nodes.size(), 0);
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    ++children[static_cast<std::size_t>(lesson.nodes[i].parent)];
  }
  std::vector<Slip> out;
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    if (children[i] > 0 || ends_the_game(lesson.nodes[i].position)) continue;
    // Up to the last branching: that is the line's own.
    bool judged = false;
    const auto leaf = static_cast<NodeId>(i);
    NodeId id = leaf;
    do {
      const Node& node = at(lesson, id);
      judged |= !node.judgements.empty() || node.advice != lesson::Advice::kNone;
      id = node.parent;
    } while (id > 0 && children[static_cast<std::size_t>(id)] == 1);
    if (judged) continue;
    out.push_back({at(lesson, leaf).t, choices_to(lesson, leaf)});
  }
  return in_time(std::move(out));
}

std::string write_slips(const Lesson& lesson) {
  std::vector<Slip> loose, squares, corrections;
  for (const lesson::Loose& l : lesson.loose) {
    if (is_move_like(l.span.heard)) {
      loose.push_back({l.span.t, fmt::format("{}: {}", quoted(l.span.heard), l.why)});
    } else {
      squares.push_back({l.span.t, l.span.heard});
    }
  }
  for (const lesson::Span& span : lesson.corrections) {
    corrections.push_back({span.t, quoted(span.heard)});
  }
  std::string out;
  section(out, "Moves that no reading makes legal", loose);
  section(out, "Self-corrections", corrections);
  section(out, "A move called by two names", two_names(lesson));
  section(out, "Advice that contradicts itself", contradictions(lesson));
  section(out, "Heard otherwise", heard_otherwise(lesson));
  section(out, "Several moves and no choice", undecided(lesson));
  section(out, "Lines that end without a verdict", without_verdict(lesson));
  section(out, "Not certain", not_certain(lesson));
  run_on(out, "Squares named without a move", squares);
  LineFiller title(kColumnsWide);
  title.add_words((lesson.title.empty() ? "Lesson" : lesson.title) +
                  ": to mend before it goes out");
  return title.finish() + (out.empty() ? "\nNothing.\n" : out);
}

constinit const Kind kSlipsKind = {
    .name = "slips",
    .files = "slips.txt",
    .about = "what to mend before the lesson goes out",
    .needs_original = false,
    .write = [](const Edition& edition) -> Result<std::vector<Output>> {
      return std::vector<Output>{{"slips.txt", write_slips(edition.lesson)}};
    },
};

}  // namespace plyscribe::publish
