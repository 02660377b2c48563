#include "lesson/lesson_json.h"

#include <fmt/format.h>

#include <cstddef>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "board/notation.h"
#include "lesson/lines.h"

namespace plyscribe::lesson {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view kSchema = "plyscribe.lesson/1";
constexpr std::pair<Advice, std::string_view> kAdviceNames[] = {
    {Advice::kRecommended, "recommended"}, {Advice::kPlayable, "playable"},
    {Advice::kAvoided, "avoided"},         {Advice::kForCompleteness, "for completeness"},
    {Advice::kAvoided, "discouraged"},  // its old name
};

// ---------------------------------------------------------------- writing

std::string side_name(board::Color c) { return c == board::Color::kWhite ? "white" : "black"; }

Json span_json(const Span& s) {
  return {{"t", round_seconds(s.t)},
          {"t_end", round_seconds(s.t_end)},
          {"first_word", s.first_word},
          {"last_word", s.last_word},
          {"heard", s.heard}};
}

Json mention_json(const Mention& m) {
  Json j = span_json(m.span);
  j["said"] = m.said;
  j["revisit"] = m.revisit;
  j["confidence"] = round_share(m.confidence);
  if (m.settled) j["settled"] = true;
  return j;
}

Json advice_json(Advice advice) {
  for (const auto& [value, name] : kAdviceNames) {
    if (value == advice) return name;
  }
  return nullptr;
}

// What was said of the node's move and position, as the last keys of its object.
void add_sayings(const Node& n, Json& j) {
  Json judgements = Json::array(), counsels = Json::array(), remarks = Json::array();
  for (const Judgement& said : n.judgements) {
    judgements.push_back(span_json(said.span));
    judgements.back()["nag"] = said.nag;
  }
  for (const Counsel& said : n.counsels) {
    counsels.push_back(span_json(said.span));
    counsels.back()["advice"] = advice_json(said.advice);
  }
  for (const Span& said : n.remarks) remarks.push_back(span_json(said));
  j["nags"] = nags_of(n);
  j["judgements"] = std::move(judgements);
  j["advice"] = advice_json(n.advice);
  j["counsels"] = std::move(counsels);
  j["remarks"] = std::move(remarks);
}

Json node_json(std::size_t id, const Node& n) {
  Json mentions = Json::array(), alternatives = Json::array();
  for (const Mention& m : n.mentions) mentions.push_back(mention_json(m));
  for (const Choice& c : n.alternatives) {
    alternatives.push_back(Json{{"san", c.san}, {"confidence", round_share(c.confidence)}});
  }
  Json j = {{"id", id},
            {"parent", n.parent},
            {"san", n.san},
            {"uci", board::to_uci(n.move)},
            {"fen", board::to_fen(n.position)},
            {"t", round_seconds(n.t)},
            {"status", status_name(n.status)},
            {"confidence", round_share(n.confidence)},
            {"unsaid", n.unsaid},
            {"mentions", std::move(mentions)},
            {"alternatives", std::move(alternatives)}};
  add_sayings(n, j);
  return j;
}

Json start_json(const Lesson& lesson) {
  Json moves = Json::array();
  board::Position p = board::Position::initial();
  for (board::Move m : lesson.start.moves) {
    moves.push_back(board::to_san(p, m));
    p = p.after(m);
  }
  Json j = {{"fen", board::to_fen(lesson.nodes.front().position)},
            {"moves", std::move(moves)},
            {"how", lesson.start.how},
            {"name", lesson.start.name},
            {"confidence", round_share(lesson.start.confidence)}};
  add_sayings(lesson.nodes.front(), j);
  return j;
}

Json lesson_json(const Lesson& lesson) {
  Json nodes = Json::array(), ideas = Json::array(), loose = Json::array();
  Json credits = Json::array(), references = Json::array(), corrections = Json::array(),
       chapters = Json::array();
  for (std::size_t i = 1; i < lesson.nodes.size(); ++i) {
    nodes.push_back(node_json(i, lesson.nodes[i]));
  }
  for (const Idea& idea : lesson.ideas) {
    Json j = span_json(idea.span);
    j["node"] = idea.node;
    j[idea.is_move ? "san" : "text"] = idea.text;
    if (idea.settled) j["settled"] = true;
    j["confidence"] = round_share(idea.confidence);
    ideas.push_back(std::move(j));
  }
  for (const Loose& l : lesson.loose) {
    Json j = span_json(l.span);
    j["why"] = l.why;
    loose.push_back(std::move(j));
  }
  for (const Credit& c : lesson.credits) {
    Json j = span_json(c.span);
    j["player"] = c.player;
    j["opponent"] = c.opponent;
    j["event"] = c.event;
    j["year"] = c.year;
    j["node"] = c.node;
    credits.push_back(std::move(j));
  }
  for (const Span& r : lesson.references) references.push_back(span_json(r));
  for (const Span& c : lesson.corrections) corrections.push_back(span_json(c));
  for (const Chapter& c : lesson.chapters) {
    chapters.push_back(Json{{"t", round_seconds(c.t)}, {"title", c.title}, {"node", c.node}});
  }
  return {{"schema", kSchema},
          {"title", lesson.title},
          {"media", lesson.media},
          {"duration", round_seconds(lesson.duration)},
          {"side", side_name(lesson.side)},
          {"start", start_json(lesson)},
          {"nodes", std::move(nodes)},
          {"ideas", std::move(ideas)},
          {"loose", std::move(loose)},
          {"credits", std::move(credits)},
          {"references", std::move(references)},
          {"corrections", std::move(corrections)},
          {"chapters", std::move(chapters)}};
}

// ---------------------------------------------------------------- reading

// Thrown inside this file only; read_json turns it into the Error it returns.
struct Mismatch {
  std::string place, expected;
};

// A value together with its path, for messages.
class Value {
 public:
  Value(const Json& json, std::string path) : json_(json), path_(std::move(path)) {}

  [[noreturn]] void fail(std::string expected) const {
    throw Mismatch{path_.empty() ? "1" : path_, std::move(expected)};
  }

  Value at(std::string_view key) const {
    if (!json_.is_object()) fail("an object");
    const auto it = json_.find(std::string(key));
    if (it == json_.end()) fail(fmt::format("the key \"{}\"", key));
    return {*it, path_.empty() ? std::string(key) : fmt::format("{}.{}", path_, key)};
  }
  bool has(std::string_view key) const {
    return json_.is_object() && json_.contains(std::string(key));
  }
  bool is_null() const { return json_.is_null(); }
  bool is_text() const { return json_.is_string(); }

  template <typename Visit>
  void each(Visit visit) const {
    if (!json_.is_array()) fail("a list");
    for (std::size_t i = 0; i < json_.size(); ++i) {
      visit(Value(json_[i], fmt::format("{}[{}]", path_, i)));
    }
  }

  std::string text() const {
    if (!json_.is_string()) fail("a text");
    return json_.get<std::string>();
  }
  double number(double low, double high) const {
    if (!json_.is_number()) fail("a number");
    const double x = json_.get<double>();
    if (!(x >= low && x <= high)) fail(fmt::format("a number from {} to {}", low, high));
    return x;
  }
  double seconds() const { return number(0, 1e9); }
  double share() const { return number(0, 1); }
  std::int32_t integer(std::int32_t low, std::int32_t high) const {
    if (json_.is_number_integer()) {
      const auto x = json_.get<std::int64_t>();
      if (x >= low && x <= high) return static_cast<std::int32_t>(x);
    }
    fail(fmt::format("an integer from {} to {}", low, high));
  }
  std::uint32_t word() const { return static_cast<std::uint32_t>(integer(0, 1'000'000'000)); }
  bool boolean() const {
    if (!json_.is_boolean()) fail("true or false");
    return json_.get<bool>();
  }

 private:
  const Json& json_;
  std::string path_;
};

Span read_span(const Value& v) {
  Span s;
  s.t = v.at("t").seconds();
  s.t_end = v.at("t_end").seconds();
  s.first_word = v.at("first_word").word();
  s.last_word = v.at("last_word").word();
  s.heard = v.at("heard").text();
  return s;
}

Mention read_mention(const Value& v) {
  Mention m;
  m.span = read_span(v);
  m.said = v.at("said").text();
  m.revisit = v.at("revisit").boolean();
  m.confidence = v.at("confidence").share();
  m.settled = v.has("settled") && v.at("settled").boolean();
  return m;
}

Advice read_advice(const Value& v) {
  if (v.is_null()) return Advice::kNone;
  const std::string text = v.text();
  for (const auto& [value, name] : kAdviceNames) {
    if (text == name) return value;
  }
  v.fail("null, \"recommended\", \"playable\", \"avoided\" or \"for completeness\"");
}

// Words of which only the times are known, or nothing but the text.
Span bare_span(double t, double t_end, std::string heard) {
  Span s;
  s.t = t;
  s.t_end = t_end;
  s.heard = std::move(heard);
  return s;
}

// n.t is known already: what old files say without a time borrows it.
void read_sayings(const Value& v, Node& n) {
  if (v.has("judgements")) {
    v.at("judgements").each([&](const Value& j) {
      n.judgements.push_back({j.at("nag").integer(1, 255), read_span(j)});
    });
  } else if (v.has("nags")) {
    v.at("nags").each([&](const Value& nag) {
      n.judgements.push_back({nag.integer(1, 255), bare_span(n.t, n.t, "")});
    });
  }
  if (v.has("advice")) n.advice = read_advice(v.at("advice"));
  if (v.has("counsels")) {
    v.at("counsels").each([&](const Value& c) {
      n.counsels.push_back({read_advice(c.at("advice")), read_span(c)});
    });
  }
  if (v.has("remarks")) {
    v.at("remarks").each([&](const Value& r) {
      n.remarks.push_back(r.is_text() ? bare_span(n.t, n.t, r.text()) : read_span(r));
    });
  }
}

board::Color read_side(const Value& v) {
  const std::string text = v.text();
  if (text == "white") return board::Color::kWhite;
  if (text != "black") v.fail("\"white\" or \"black\"");
  return board::Color::kBlack;
}

board::Position read_fen(const Value& v) {
  auto p = board::parse_fen(v.text());
  if (!p) v.fail("a position in FEN: " + p.error().message);
  return *p;
}

Start read_start(const Value& v) {
  Start start;
  board::Position p = board::Position::initial();
  v.at("moves").each([&](const Value& move) {
    auto m = board::parse_san(p, move.text());
    if (!m) move.fail("a legal move: " + m.error().message);
    start.moves.push_back(*m);
    p = p.after(*m);
  });
  start.how = v.at("how").text();
  start.name = v.at("name").text();
  start.confidence = v.at("confidence").share();
  const board::Position told = read_fen(v.at("fen"));
  if (!start.moves.empty() && board::to_fen(told) != board::to_fen(p)) {
    v.at("fen").fail("the position after the start moves, " + board::to_fen(p));
  }
  return start;
}

Node read_node(const Value& v, const std::vector<Node>& before) {
  Node n;
  const auto id = static_cast<std::int32_t>(before.size());
  v.at("id").integer(id, id);
  n.parent = v.at("parent").integer(0, id - 1);
  const board::Position& position = before[static_cast<std::size_t>(n.parent)].position;
  auto move = board::parse_uci(position, v.at("uci").text());
  if (!move) v.at("uci").fail("a legal move: " + move.error().message);
  n.move = *move;
  n.san = board::to_san(position, n.move);
  if (v.at("san").text() != n.san) v.at("san").fail(n.san);
  n.position = position.after(n.move);
  if (v.at("fen").text() != board::to_fen(n.position)) v.at("fen").fail(board::to_fen(n.position));
  n.t = v.at("t").seconds();
  const auto status = parse_status(v.at("status").text());
  if (!status) v.at("status").fail("clear, mended, unsure or loose");
  n.status = *status;
  n.confidence = v.at("confidence").share();
  n.unsaid = v.at("unsaid").boolean();
  v.at("mentions").each([&](const Value& m) { n.mentions.push_back(read_mention(m)); });
  v.at("alternatives").each([&](const Value& c) {
    n.alternatives.push_back({c.at("san").text(), c.at("confidence").share()});
  });
  read_sayings(v, n);
  return n;
}

Idea read_idea(const Value& v, std::size_t nodes) {
  Idea idea;
  idea.span = read_span(v);
  idea.node = v.at("node").integer(0, static_cast<std::int32_t>(nodes) - 1);
  idea.is_move = v.has("san");
  idea.text = v.at(idea.is_move ? "san" : "text").text();
  idea.settled = v.has("settled") && v.at("settled").boolean();
  if (v.has("confidence")) idea.confidence = v.at("confidence").share();
  return idea;
}

NodeId read_node_id(const Value& v, std::size_t nodes) {
  return v.has("node") ? v.at("node").integer(0, static_cast<NodeId>(nodes) - 1) : 0;
}

Credit read_credit(const Value& v, std::size_t nodes) {
  Credit credit;
  if (v.has("text")) {
    credit.span = bare_span(v.at("t").seconds(), v.at("t_end").seconds(), v.at("text").text());
    return credit;
  }
  credit.span = read_span(v);
  credit.player = v.at("player").text();
  credit.opponent = v.at("opponent").text();
  credit.event = v.at("event").text();
  credit.year = v.at("year").text();
  credit.node = read_node_id(v, nodes);
  return credit;
}

Lesson read_lesson(const Value& v) {
  if (v.at("schema").text() != kSchema) v.at("schema").fail(fmt::format("\"{}\"", kSchema));
  Lesson lesson;
  lesson.title = v.at("title").text();
  lesson.media = v.at("media").text();
  lesson.duration = v.at("duration").seconds();
  lesson.side = read_side(v.at("side"));
  lesson.start = read_start(v.at("start"));
  Node root;
  root.position = read_fen(v.at("start").at("fen"));
  read_sayings(v.at("start"), root);
  lesson.nodes.push_back(std::move(root));
  v.at("nodes").each([&](const Value& n) { lesson.nodes.push_back(read_node(n, lesson.nodes)); });
  v.at("ideas").each(
      [&](const Value& i) { lesson.ideas.push_back(read_idea(i, lesson.nodes.size())); });
  v.at("loose").each([&](const Value& l) {
    lesson.loose.push_back({read_span(l), l.at("why").text()});
  });
  const std::size_t nodes = lesson.nodes.size();
  v.at("credits").each([&](const Value& c) { lesson.credits.push_back(read_credit(c, nodes)); });
  if (v.has("references")) {
    v.at("references").each([&](const Value& r) { lesson.references.push_back(read_span(r)); });
  }
  if (v.has("corrections")) {
    v.at("corrections").each([&](const Value& c) { lesson.corrections.push_back(read_span(c)); });
  }
  v.at("chapters").each([&](const Value& c) {
    lesson.chapters.push_back({c.at("t").seconds(), c.at("title").text(), read_node_id(c, nodes)});
  });
  return lesson;
}

}  // namespace

std::string write_json(const Lesson& lesson) {
  // Bytes that are no UTF-8 become U+FFFD: a reader upstream let them through, the file must not.
  return lesson_json(lesson).dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

Result<Lesson> read_json(std::string_view text, std::string_view name) {
  try {
    const Json json = Json::parse(text);
    return read_lesson(Value(json, ""));
  } catch (const Json::parse_error& e) {
    return Error{fmt::format("{}:{}: expected JSON", name, line_at(text, e.byte))};
  } catch (const Json::out_of_range&) {
    return Error{fmt::format("{}:1: expected JSON without numbers of over 300 digits", name)};
  } catch (const Mismatch& m) {
    return Error{fmt::format("{}:{}: expected {}", name, m.place, m.expected)};
  }
}

}  // namespace plyscribe::lesson
