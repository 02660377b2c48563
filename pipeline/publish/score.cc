#include "publish/score.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <unordered_map>

#include "board/notation.h"
#include "lesson/lines.h"

namespace plyscribe::publish {
namespace {

std::string edge(const board::Position& before, board::Move move) {
  return board::to_fen_placement(before) + '|' + board::to_uci(move);
}

double ratio(double part, double whole) { return whole == 0 ? 0 : part / whole; }

// One decimal, ties upwards. Only quarters can be ties: no other number with two decimals that end
// in 5 is exact in binary.
std::string percent(double share) {
  const double x = 100 * share;
  const bool tie = std::fmod(x * 4, 2) == 1;
  return fmt::format("{:.1f}", tie ? x + 0.01 : x);
}

// Moves that don't lead on from the initial position (a set-up lesson) are not free.
void add_start_moves(const nlohmann::json& moves, Gold& gold) {
  std::vector<std::string> edges;
  board::Position p = board::Position::initial();
  for (const auto& san : moves) {
    const auto move = board::parse_san(p, san.get<std::string>());
    if (!move) return;
    edges.push_back(edge(p, *move));
    p = p.after(*move);
  }
  gold.free.insert(edges.begin(), edges.end());
}

}  // namespace

double Score::precision() const {
  return ratio(static_cast<double>(hit), static_cast<double>(hit + extra.size()));
}
double Score::recall() const { return ratio(static_cast<double>(hit), static_cast<double>(gold)); }
double Score::f1() const { return ratio(2 * precision() * recall(), precision() + recall()); }

Result<Gold> read_gold(std::string_view json, std::string_view name) {
  Gold gold;
  try {
    const auto root = nlohmann::json::parse(json);
    std::unordered_map<std::string, std::size_t> place;
    for (const auto& e : root.at("edges")) {
      const std::string key = e.at("key").get<std::string>() + '|' + e.at("uci").get<std::string>();
      if (e.at("unsaid").get<bool>()) {
        gold.free.insert(key);
        continue;
      }
      std::string path;
      for (const auto& san : e.at("path")) {
        if (!path.empty()) path += ' ';
        path += san.get<std::string>();
      }
      const auto [it, is_new] = place.try_emplace(key, gold.said.size());
      if (is_new) gold.said.push_back({key, ""});
      gold.said[it->second].path = std::move(path);
    }
    if (const auto it = root.find("start_moves"); it != root.end()) add_start_moves(*it, gold);
  } catch (const nlohmann::json::parse_error& e) {
    return Error{fmt::format("{}:{}: expected JSON", name, lesson::line_at(json, e.byte))};
  } catch (const nlohmann::json::exception&) {
    return Error{
        fmt::format("{}:1: expected a gold tree with edges of key, uci, path and unsaid", name)};
  }
  return gold;
}

Score score(const Gold& gold, const std::vector<PgnGame>& games) {
  Score score;
  score.gold = gold.said.size();
  std::unordered_set<std::string> said;
  for (const GoldEdge& e : gold.said) said.insert(e.edge);

  std::unordered_set<std::string> seen;
  for (const PgnGame& game : games) {
    for (std::size_t i = 1; i < game.nodes.size(); ++i) {
      const PgnNode& node = game.nodes[i];
      const board::Position& before = game.nodes[static_cast<std::size_t>(node.parent)].position;
      const auto [key, is_new] = seen.insert(edge(before, node.move));
      if (!is_new) continue;
      if (said.contains(*key)) {
        ++score.hit;
      } else if (gold.free.contains(*key)) {
        ++score.free;
      } else {
        score.extra.push_back({board::to_san(before, node.move), board::to_fen(before)});
      }
    }
  }
  for (const GoldEdge& e : gold.said) {
    if (!seen.contains(e.edge)) score.missed.push_back(e.path);
  }
  return score;
}

std::string score_line(const Score& s) {
  return fmt::format("P {}  R {}  F1 {}  (gold {}, hit {}, extra {}, free {})",
                     percent(s.precision()), percent(s.recall()), percent(s.f1()), s.gold, s.hit,
                     s.extra.size(), s.free);
}

}  // namespace plyscribe::publish
