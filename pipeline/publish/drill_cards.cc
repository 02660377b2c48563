#include "publish/drill_cards.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>

#include "board/notation.h"
#include "publish/decisions.h"
#include "publish/diagram.h"
#include "publish/nag_words.h"
#include "publish/place.h"
#include "publish/text.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using lesson::Node;
using lesson::NodeId;

constexpr std::string_view kColumns = "fen\tline\tdiagram\tmove\twhy\tbasis\ttime\tlink\n";

const Node& node_at(const Lesson& lesson, NodeId id) {
  return lesson.nodes[static_cast<std::size_t>(id)];
}

// Whether the node and all on the way to it are sure.
std::vector<bool> certain(const Lesson& lesson) {
  std::vector<bool> out(lesson.nodes.size());
  out[0] = lesson.start.confidence >= lesson::kSureFrom;
  for (std::size_t i = 1; i < out.size(); ++i) {
    out[i] = out[static_cast<std::size_t>(lesson.nodes[i].parent)] &&
             lesson.nodes[i].status != lesson::Status::kUnsure;
  }
  return out;
}

// What the card asks for: recommended moves, or else the one that is shown and not set aside.
bool is_wanted(const Decision& decision, const Answer& answer) {
  return decision.verdict == Verdict::kAdvised
             ? answer.recommended
             : !answer.recommended && !answer.avoided && !answer.for_completeness;
}

struct Card {
  NodeId at = 0;
  std::vector<NodeId> moves;  // any of them is right
};

// The card of a decision, or what it lacks; neither for a decision that the lesson doesn't take.
class Dealer {
 public:
  explicit Dealer(const Lesson& lesson) : certain_(certain(lesson)) {}

  std::optional<Lack> lack(const Decision& decision) const {
    switch (decision.verdict) {
      case Verdict::kOpen:
        return Lack::kAdvice;
      case Verdict::kConflict:
        return Lack::kAgreement;
      case Verdict::kAdvised:
      case Verdict::kShown:
        if (!card(decision)) return Lack::kCertainty;
        break;
      case Verdict::kAside:
        break;
    }
    return std::nullopt;
  }

  std::optional<Card> card(const Decision& decision) const {
    if (decision.verdict != Verdict::kAdvised && decision.verdict != Verdict::kShown) return {};
    const auto sure = [&](NodeId id) { return certain_[static_cast<std::size_t>(id)]; };
    const auto at = std::find_if(decision.places.begin(), decision.places.end(), sure);
    if (at == decision.places.end()) return {};
    Card card{*at, {}};
    for (const Answer& answer : decision.answers) {
      if (!is_wanted(decision, answer)) continue;
      const auto move = std::find_if(answer.nodes.begin(), answer.nodes.end(), sure);
      if (move == answer.nodes.end()) return {};
      card.moves.push_back(*move);
    }
    return card;
  }

 private:
  std::vector<bool> certain_;
};

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : std::string(between)) + part;
  return text;
}

std::string quoted(const lesson::Span& span) { return "\u201c" + span.heard + "\u201d"; }

// The words of the advice, the judgements, the remarks, and what is said of the other moves.
std::string why(const Lesson& lesson, const Decision& decision) {
  std::vector<std::string> parts, playable, avoided;
  for (const Answer& answer : decision.answers) {
    const std::string name = numbered_move(lesson, answer.nodes.front());
    if (!is_wanted(decision, answer)) {
      if (answer.avoided) {
        avoided.push_back(name);
      } else if (answer.playable) {
        playable.push_back(name);
      }
      continue;
    }
    for (const NodeId id : answer.nodes) {
      const Node& node = node_at(lesson, id);
      for (const lesson::Counsel& c : node.counsels) parts.push_back(quoted(c.span));
      for (const int nag : lesson::nags_of(node)) parts.push_back(nag_words(nag));
      for (const lesson::Span& remark : node.remarks) parts.push_back(quoted(remark));
    }
  }
  if (decision.verdict == Verdict::kShown && parts.empty()) {
    parts.push_back("the only move that the lesson goes on with");
  }
  if (!playable.empty()) parts.push_back("also playable: " + joined(playable, ", "));
  if (!avoided.empty()) parts.push_back("not " + joined(avoided, ", "));
  return joined(parts, "; ");
}

// When the first of the wanted moves is advised, or else first named.
double time_of(const Lesson& lesson, const Card& card) {
  const Node& node = node_at(lesson, card.moves.front());
  for (const lesson::Counsel& counsel : node.counsels) {
    if (counsel.advice == lesson::Advice::kRecommended) return counsel.span.t;
  }
  return node.t;
}

}  // namespace

std::string cell(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool blank = c == ' ' || byte < 0x20 || byte == 0x7F;
    if (!blank) {
      out += c;
    } else if (!out.empty() && out.back() != ' ') {
      out += ' ';
    }
  }
  if (out.ends_with(' ')) out.pop_back();
  // Spreadsheets take these for the beginning of a formula.
  if (!out.empty() && std::string_view("=+-@").find(out.front()) != std::string_view::npos) {
    out.insert(0, "'");
  }
  return out;
}

std::vector<Output> write_cards(const Lesson& lesson, const Link& link) {
  std::string table(kColumns);
  std::vector<Output> pictures;
  const Dealer dealer(lesson);
  for (const Decision& decision : decisions(lesson)) {
    const auto card = dealer.card(decision);
    if (!card) continue;
    const board::Position& p = node_at(lesson, card->at).position;
    const std::string picture = fmt::format("cards/{:016x}.svg", p.key());
    std::vector<std::string> moves;
    for (const NodeId id : card->moves) moves.push_back(numbered_move(lesson, id));
    const double t = time_of(lesson, *card);
    const std::string cells[] = {board::to_fen(p),
                                 line_to(lesson, card->at),
                                 picture,
                                 joined(moves, " or "),
                                 why(lesson, decision),
                                 decision.verdict == Verdict::kAdvised ? "advised" : "shown",
                                 clock_text(t),
                                 link.at(t)};
    for (std::size_t i = 0; i < std::size(cells); ++i) {
      table += cell(cells[i]);
      table += i + 1 < std::size(cells) ? '\t' : '\n';
    }
    pictures.push_back({picture, write_diagram(p, {.below = lesson.side})});
  }
  std::vector<Output> out{{"cards.tsv", std::move(table)}};
  out.insert(out.end(), std::make_move_iterator(pictures.begin()),
             std::make_move_iterator(pictures.end()));
  return out;
}

std::vector<Gap> gaps(const Lesson& lesson) {
  std::vector<Gap> out;
  const Dealer dealer(lesson);
  for (const Decision& decision : decisions(lesson)) {
    if (const auto lack = dealer.lack(decision)) out.push_back({decision.places.front(), *lack});
  }
  return out;
}

constinit const Kind kCardsKind = {
    .name = "cards",
    .files = "cards.tsv, cards/*.svg",
    .about = "drill cards for the lesson's side, with a diagram each",
    .needs_original = false,
    .write = [](const Edition& edition) -> Result<std::vector<Output>> {
      return write_cards(edition.lesson, edition.link);
    },
};

}  // namespace plyscribe::publish
