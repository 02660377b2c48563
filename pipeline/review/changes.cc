#include "review/changes.h"

#include <map>
#include <set>
#include <utility>

#include "board/notation.h"
#include "publish/text.h"

namespace plyscribe::review {
namespace {

using resolve::Decoding;

// Numbers for lines, the same for the same line in both trees.
class LineNumbers {
 public:
  std::vector<std::size_t> of(const Decoding& d) {
    std::vector<std::size_t> out;
    for (const resolve::Node& n : d.nodes) {
      const std::string step = n.parent < 0 ? board::to_fen(n.position) : board::to_uci(n.move);
      const std::size_t parent = n.parent < 0 ? 0 : out[static_cast<std::size_t>(n.parent)];
      out.push_back(numbers_.try_emplace({parent, step}, numbers_.size() + 1).first->second);
    }
    return out;
  }

 private:
  std::map<std::pair<std::size_t, std::string>, std::size_t> numbers_;
};

std::string describe(const Decoding& d, const resolve::Mention& m) {
  if (m.act == resolve::Act::kLoose) return "not placed";
  if (m.act == resolve::Act::kIdea) return "idea " + m.idea;
  if (m.node <= 0) return "start position";
  const resolve::Node& n = d.nodes[static_cast<std::size_t>(m.node)];
  const board::Position& before = d.nodes[static_cast<std::size_t>(n.parent)].position;
  return publish::move_number(before) + board::to_san(before, n.move);
}

struct Became {
  std::string text;
  std::size_t line = 0;  // 0: no place in the tree
};
using Spans = std::map<std::pair<std::uint32_t, std::uint32_t>, Became>;

Spans spans(const Decoding& d, const std::vector<std::size_t>& lines) {
  Spans out;
  for (const resolve::Mention& m : d.mentions) {
    const bool placed = m.act == resolve::Act::kPlay || m.act == resolve::Act::kRevisit;
    out[{m.first_word, m.last_word}] = {describe(d, m),
                                        placed ? lines[static_cast<std::size_t>(m.node)] : 0};
  }
  return out;
}

}  // namespace

Changes compare(const Decoding& before, const Decoding& after) {
  LineNumbers numbers;
  const auto old_lines = numbers.of(before), new_lines = numbers.of(after);
  const std::set<std::size_t> old_set(old_lines.begin() + 1, old_lines.end());
  const std::set<std::size_t> new_set(new_lines.begin() + 1, new_lines.end());
  Changes out;
  out.start = old_lines[0] != new_lines[0];
  for (std::size_t i = 1; i < new_lines.size(); ++i) {
    if (!old_set.contains(new_lines[i])) out.new_nodes.push_back(i);
  }
  for (std::size_t line : old_set) out.gone += new_set.contains(line) ? 0 : 1;

  Spans old_spans = spans(before, old_lines);
  Spans all = spans(after, new_lines);
  std::map<std::pair<std::uint32_t, std::uint32_t>, std::pair<Became, Became>> both;
  for (const auto& [words, became] : old_spans) both[words].first = became;
  for (const auto& [words, became] : all) both[words].second = became;
  for (auto& [words, pair] : both) {
    auto& [was, now] = pair;
    if (was.text.empty()) was.text = "talk";
    if (now.text.empty()) now.text = "talk";
    if (was.text == now.text && was.line == now.line) continue;
    if (was.text == now.text) now.text += " elsewhere";
    out.mentions.push_back({words.first, words.second, was.text, now.text});
  }
  return out;
}

}  // namespace plyscribe::review
