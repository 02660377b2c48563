#include "tests/publish/gold_decoding.h"

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>
#include <vector>

#include "board/notation.h"

namespace plyscribe::tests {
namespace {

using nlohmann::json;

resolve::Node child(const std::vector<resolve::Node>& nodes, std::int32_t parent, board::Move move,
                    bool unsaid) {
  const board::Position& before = nodes[static_cast<std::size_t>(parent)].position;
  return {parent, move, before.after(move), unsaid};
}

void speak(const json& mention, transcript::Transcript& transcript) {
  const auto first = mention.at("first").get<std::size_t>();
  const auto last = mention.at("last").get<std::size_t>();
  const double t = mention.at("t").get<double>(), t_end = mention.at("t_end").get<double>();
  std::istringstream said(mention.at("said").get<std::string>());
  for (std::size_t i = first; i <= last; ++i) {
    transcript::Word& word = transcript.words.at(i);
    const double step = (t_end - t) / static_cast<double>(last + 1 - first);
    said >> word.text;
    word.start = t + step * static_cast<double>(i - first);
    word.end = word.start + step;
  }
}

resolve::Mention mention_of(const json& j, resolve::Act act, std::int32_t node) {
  resolve::Mention m;
  m.first_word = j.at("first").get<std::uint32_t>();
  m.last_word = j.at("last").get<std::uint32_t>() + 1;
  m.act = act;
  m.node = node;
  return m;
}

Result<GoldDecoding> convert(const json& gold) {
  GoldDecoding out;
  resolve::Decoding& d = out.decoding;
  const auto start = board::parse_fen(gold.at("start_fen").get<std::string>());
  if (!start) return start.error();
  d.start.position = *start;
  d.start.how = "given";
  if (gold.at("opening").is_string()) d.start.name = gold.at("opening").get<std::string>();
  board::Position p = board::Position::initial();
  for (const json& san : gold.at("start_moves")) {
    const auto move = board::parse_san(p, san.get<std::string>());
    if (!move) return move.error();
    d.start.moves.push_back(*move);
    p = p.after(*move);
  }
  if (gold.at("side") == "black") d.side = board::Color::kBlack;
  d.nodes.push_back({-1, board::kNoMove, *start, false});
  for (const json& e : gold.at("edges")) {
    const auto parent = e.at("parent").get<std::int32_t>();
    const auto move = board::parse_uci(d.nodes.at(static_cast<std::size_t>(parent)).position,
                                       e.at("uci").get<std::string>());
    if (!move) return move.error();
    d.nodes.push_back(child(d.nodes, parent, *move, e.at("unsaid").get<bool>()));
  }

  transcript::Transcript& t = out.transcript;
  t.title = gold.at("title").get<std::string>();
  t.duration = gold.at("duration").get<double>();
  t.words.resize(gold.at("words").get<std::size_t>());
  for (transcript::Word& word : t.words) word.text = "talk";
  for (const json& m : gold.at("mentions")) {
    const bool revisit = m.at("kind") == "revisit";
    const auto node = m.at("node").get<std::int32_t>();
    d.mentions.push_back(
        mention_of(m, revisit ? resolve::Act::kRevisit : resolve::Act::kPlay, node));
    speak(m, t);
  }
  for (const json& i : gold.at("ideas")) {
    resolve::Mention m = mention_of(i, resolve::Act::kIdea, i.at("at").get<std::int32_t>());
    m.idea = i.at("san").get<std::string>();
    d.mentions.push_back(m);
    speak(i, t);
  }
  std::stable_sort(d.mentions.begin(), d.mentions.end(),
                   [](const auto& a, const auto& b) { return a.first_word < b.first_word; });
  return out;
}

}  // namespace

Result<GoldDecoding> read_gold_decoding(const std::string& path) {
  std::ifstream in(path);
  if (!in) return Error{path + ":0: expected a gold tree"};
  try {
    return convert(json::parse(in));
  } catch (const std::exception& e) {
    return Error{path + ": " + e.what()};
  }
}

void perturb(GoldDecoding& gold, std::uint32_t seed) {
  // The engine's numbers are fixed by the standard; distributions are not, so none is used.
  std::mt19937 engine(seed);
  const auto one_in = [&](std::uint32_t n) { return engine() % n == 0; };
  const std::vector<resolve::Node> before = std::move(gold.decoding.nodes);
  std::vector<resolve::Node>& nodes = gold.decoding.nodes;
  nodes = {before.front()};
  const auto random_move = [&](std::int32_t parent) {
    board::MoveList legal;
    nodes[static_cast<std::size_t>(parent)].position.legal_moves(legal);
    return legal.empty() ? board::kNoMove : legal[engine() % legal.size()];
  };
  const auto is_new = [&](std::int32_t parent, board::Move move) {
    return std::none_of(nodes.begin() + 1, nodes.end(), [&](const resolve::Node& n) {
      return n.parent == parent && n.move == move;
    });
  };
  std::vector<std::int32_t> moved(before.size(), -1);  // new index, or -1 if lost
  moved[0] = 0;
  for (std::size_t i = 1; i < before.size(); ++i) {
    const std::int32_t parent = moved[static_cast<std::size_t>(before[i].parent)];
    if (parent < 0 || one_in(15)) continue;
    board::Move move = before[i].move;
    const bool legal = nodes[static_cast<std::size_t>(parent)].position.is_legal(move);
    if (!legal || one_in(12)) move = random_move(parent);
    if (move == board::kNoMove || !is_new(parent, move)) continue;
    moved[i] = static_cast<std::int32_t>(nodes.size());
    nodes.push_back(child(nodes, parent, move, before[i].unsaid));
    if (!one_in(8)) continue;
    if (const board::Move extra = random_move(parent);
        extra != board::kNoMove && is_new(parent, extra)) {
      nodes.push_back(child(nodes, parent, extra, true));
    }
  }
  std::vector<resolve::Mention>& mentions = gold.decoding.mentions;
  for (resolve::Mention& m : mentions) {
    m.node = moved[static_cast<std::size_t>(m.node)];
    m.as_heard = !one_in(4);
    if (one_in(5)) m.confidence = 0.4;
    if (m.node < 0) {
      m.act = resolve::Act::kLoose;
      m.why = "no such move can be made there";
    }
  }
  // A move whose mentions were lost is one that nobody named.
  for (std::size_t i = 1; i < nodes.size(); ++i) {
    nodes[i].unsaid = std::none_of(mentions.begin(), mentions.end(), [&](const auto& m) {
      return m.node == static_cast<std::int32_t>(i) && m.act == resolve::Act::kPlay;
    });
  }
}

}  // namespace plyscribe::tests
