#include "review/page_data.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "board/notation.h"

namespace plyscribe::review {
namespace {

using Json = nlohmann::ordered_json;

std::string dump(const Json& json) {
  // Bytes that are no UTF-8 become U+FFFD.
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string_view act_name(resolve::Act act) {
  switch (act) {
    case resolve::Act::kPlay:
      return "play";
    case resolve::Act::kRevisit:
      return "revisit";
    case resolve::Act::kIdea:
      return "idea";
    case resolve::Act::kLoose:
      return "loose";
  }
  return "loose";
}

// What was said of a move and of the position after it: judgements, advice, remarks.
Json sayings_json(const lesson::Node& n) {
  std::vector<std::pair<std::uint32_t, std::uint32_t>> spans;
  const auto add = [&](const lesson::Span& s) { spans.emplace_back(s.first_word, s.last_word); };
  for (const lesson::Judgement& j : n.judgements) add(j.span);
  for (const lesson::Counsel& c : n.counsels) add(c.span);
  for (const lesson::Span& s : n.remarks) add(s);
  std::sort(spans.begin(), spans.end());
  spans.erase(std::unique(spans.begin(), spans.end()), spans.end());
  Json out = Json::array();
  for (const auto& [first, last] : spans) out.push_back({first, last});
  return out;
}

Json nodes_json(const lesson::Lesson& lesson) {
  Json out = Json::array();
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    const lesson::Node& n = lesson.nodes[i];
    out.push_back({n.parent, board::to_uci(n.move), n.san, lesson::status_name(n.status),
                   n.confidence, n.unsaid ? 1 : 0, n.t, sayings_json(n)});
  }
  return out;
}

Json mention_json(const resolve::Mention& m, const StateData& state) {
  const bool placed = m.act == resolve::Act::kPlay || m.act == resolve::Act::kRevisit;
  Json alternatives = Json::array();
  for (const resolve::Choice& c : m.alternatives) {
    alternatives.push_back({c.san, lesson::round_share(c.share)});
  }
  const double confidence = lesson::round_share(m.confidence);
  lesson::Status status = lesson::Status::kLoose;
  std::string said;
  if (placed) {
    status = lesson::status_of(confidence, m.as_heard);
    said = state.lesson.nodes[static_cast<std::size_t>(m.node)].san;
  } else if (m.act == resolve::Act::kIdea) {
    status = lesson::status_of(confidence, true);
    said = m.idea;
  }
  return {{"first", m.first_word},
          {"last", m.last_word},
          {"act", act_name(m.act)},
          {"node", m.node},
          {"said", said},
          {"status", lesson::status_name(status)},
          {"confidence", confidence},
          {"alternatives", std::move(alternatives)},
          {"why", m.why},
          {"settled", m.settled}};
}

Json changes_json(const Changes* changes) {
  if (changes == nullptr) return nullptr;
  Json mentions = Json::array();
  for (const ChangedMention& m : changes->mentions) {
    mentions.push_back(
        Json{{"first", m.first_word}, {"last", m.last_word}, {"was", m.was}, {"now", m.now}});
  }
  return {{"nodes", changes->new_nodes},
          {"gone", changes->gone},
          {"start", changes->start},
          {"mentions", std::move(mentions)}};
}

Json start_json(const StateData& state) {
  Json moves = Json::array();
  board::Position p = board::Position::initial();
  for (board::Move m : state.lesson.start.moves) {
    moves.push_back(board::to_san(p, m));
    p = p.after(m);
  }
  return {{"fen", board::to_fen(state.lesson.nodes.front().position)},
          {"moves", std::move(moves)},
          {"how", state.lesson.start.how},
          {"name", state.lesson.start.name},
          {"confidence", state.lesson.start.confidence}};
}

// First words of paragraphs: at a pause or, in a stretch that is long enough to read, at the end of
// a sentence; where the source has long captions of its own (paragraphs of text), at each of them.
std::vector<std::size_t> paragraphs(const transcript::Transcript& t) {
  constexpr std::size_t kEnough = 45, kTooMuch = 120;
  constexpr double kPause = 1.5;
  const bool own = !t.captions.empty() && t.words.size() / t.captions.size() >= 25;
  std::vector<std::size_t> out;
  std::size_t first = 0;
  for (std::size_t i = 0; i < t.words.size(); ++i) {
    bool begins = i == 0;
    if (i > 0) {
      const transcript::Word &before = t.words[i - 1], &word = t.words[i];
      const std::size_t length = i - first;
      begins = (own && word.caption != before.caption) || length >= kTooMuch ||
               (!own && ((word.sentence != before.sentence && length >= kEnough) ||
                         (word.start - before.end >= kPause && length >= kEnough / 4)));
    }
    if (!begins) continue;
    first = i;
    out.push_back(i);
  }
  return out;
}

}  // namespace

std::string write_state(const StateData& state) {
  Json mentions = Json::array(), queue = Json::array(), unheld = Json::array();
  Json chapters = Json::array();
  for (const lesson::Chapter& c : state.lesson.chapters) chapters.push_back({c.t, c.title});
  for (const resolve::Mention& m : state.decoding.mentions) {
    mentions.push_back(mention_json(m, state));
  }
  for (const Item& item : state.queue) {
    constexpr const char* kKinds[] = {"start", "pin", "mention"};
    queue.push_back(Json{{"kind", kKinds[static_cast<std::size_t>(item.kind)]},
                         {"mention", item.mention},
                         {"pin", item.pin},
                         {"below", item.below},
                         {"effect", lesson::round_seconds(item.effect)},
                         {"reason", item.reason}});
  }
  for (const resolve::UnheldPin& u : state.decoding.unheld) {
    unheld.push_back(Json{{"pin", u.pin}, {"why", u.why}});
  }
  return dump({{"revision", state.revision},
               {"side", state.lesson.side == board::Color::kWhite ? "white" : "black"},
               {"start", start_json(state)},
               {"nodes", nodes_json(state.lesson)},
               {"mentions", std::move(mentions)},
               {"chapters", std::move(chapters)},
               {"queue", std::move(queue)},
               {"pins", Json::parse(lesson::write_pins(state.pins), nullptr, false)},
               {"unheld", std::move(unheld)},
               {"changes", changes_json(state.changes)},
               {"undo", state.undo},
               {"redo", state.redo}});
}

std::string write_page(const PageData& page, const transcript::Transcript& transcript,
                       const std::string& state) {
  Json words = Json::array(), starts = Json::array(), ends = Json::array(), marks = Json::array();
  for (std::size_t i = 0; i < transcript.words.size(); ++i) {
    const transcript::Word& w = transcript.words[i];
    words.push_back(w.text);
    if (!w.lead.empty() || !w.trail.empty()) marks.push_back({i, w.lead, w.trail});
    starts.push_back(lesson::round_seconds(w.start));
    ends.push_back(lesson::round_seconds(w.end));
  }
  std::string text = dump({{"schema", "plyscribe.page/1"},
                           {"title", page.title},
                           {"file", page.file},
                           {"pins_file", page.pins_file},
                           {"served", page.served},
                           {"duration", lesson::round_seconds(transcript.duration)},
                           {"media", page.media},
                           {"words", std::move(words)},
                           {"marks", std::move(marks)},
                           {"starts", std::move(starts)},
                           {"ends", std::move(ends)},
                           {"paragraphs", paragraphs(transcript)}});
  text.back() = ',';  // the state is JSON already
  return text + "\"state\":" + state + "}";
}

}  // namespace plyscribe::review
