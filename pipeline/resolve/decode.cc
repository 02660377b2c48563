#include "resolve/decode.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "board/notation.h"
#include "grammar/grammar.h"
#include "hearing/lattice.h"
#include "resolve/search.h"
#include "resolve/start.h"

namespace plyscribe::resolve {
namespace {

// How long after a mention its share of the beam is read: by then what follows has spoken.
constexpr std::uint32_t kHindsight = 30;  // tokens
constexpr double kTemperature = 1.6;      // the beam is surer of itself than it should be

constexpr double kCleanBelow = 0.055;     // share of mends under which notation is taken as clean

// Of the moves that the best hypothesis placed, the share that it had to hear differently.
double mended_share(const Search& search, const Lesson& lesson, const LineTree& lines) {
  const auto& beam = search.beam(search.tokens());
  if (beam.empty()) return 1;
  double placed = 0;
  double mended = 0;
  std::int32_t child = -1;
  for (std::int32_t i = beam[0]; i >= 0; child = i, i = search.at(i).parent) {
    const Hypothesis& h = search.at(i);
    if (h.reading == kNoReading || h.last_action == Action::kNone) continue;
    if (child >= 0 && search.at(child).reading == h.reading && search.at(child).token == h.token) {
      continue;
    }
    const Line& line = lines.at(h.tree->nodes[static_cast<std::size_t>(h.cursor)].line);
    if (line.parent == kNoLine) continue;
    const auto fit = hearing::match(lesson.lattice.readings[h.reading],
                                    lines.at(line.parent).position, line.move, false);
    ++placed;
    if ((fit.mends & (hearing::kMendFile | hearing::kMendRank | hearing::kMendPiece |
                      hearing::kMendOrigin | hearing::kCaptureUnsaid | hearing::kByEar)) != 0) {
      ++mended;
    }
  }
  return mended / std::max(placed, 1.0);
}

class Conversion {
 public:
  Conversion(const Lesson& lesson, Search& search, LineTree& lines)
      : lesson_(lesson), search_(search), lines_(lines) {}

  void run(const Hypothesis& best, Decoding& out) {
    nodes(best, out);
    std::vector<std::int32_t> chain;
    for (std::int32_t i = search_.beam(search_.tokens())[0]; i >= 0; i = search_.at(i).parent) {
      chain.push_back(i);
    }
    std::reverse(chain.begin(), chain.end());
    LineId here = best.tree->nodes[0].line;
    for (std::size_t k = 0; k < chain.size(); ++k) {
      const Hypothesis& h = search_.at(chain[k]);
      if (h.reading == kNoReading || (k > 0 && search_.at(chain[k - 1]).reading == h.reading &&
                                      search_.at(chain[k - 1]).token == h.token)) {
        continue;
      }
      if (h.last_action == Action::kNone) {
        passed(h, here, out);
      } else {
        here = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
        placed(h, out);
      }
    }
  }

 private:
  void nodes(const Hypothesis& best, Decoding& out) {
    for (const TreeNode& n : best.tree->nodes) {
      const Line& line = lines_.at(n.line);
      Node node;
      node.parent = n.parent;
      node.move = line.move;
      node.position = line.position;
      node.unsaid = n.unsaid;
      node_of_line_[n.line] = static_cast<std::int32_t>(out.nodes.size());
      out.nodes.push_back(node);
    }
  }

  std::pair<std::uint32_t, std::uint32_t> words(const hearing::Reading& r) const {
    return {lesson_.lattice.tokens[r.first].word, lesson_.lattice.tokens[r.last - 1].word + 1};
  }

  // Shares of the beam, some tokens on, of what was done with the words of `r`.
  std::map<std::pair<LineId, bool>, double> shares(const hearing::Reading& r) const {
    const std::uint32_t when = std::min(search_.tokens(), r.last + kHindsight);
    std::map<std::pair<LineId, bool>, double> out;
    const auto& beam = search_.beam(when);
    if (beam.empty()) return out;
    const double top = static_cast<double>(search_.at(beam[0]).score);
    double sum = 0;
    for (std::int32_t i : beam) {
      const double w = std::exp((static_cast<double>(search_.at(i).score) - top) / kTemperature);
      sum += w;
      LineId line = kNoLine;
      for (std::int32_t j = i; j >= 0; j = search_.at(j).parent) {
        const Hypothesis& h = search_.at(j);
        if (h.reading == kNoReading) continue;
        const hearing::Reading& other = lesson_.lattice.readings[h.reading];
        if (other.last <= r.first) break;
        if (other.first < r.last && h.last_action != Action::kNone) {
          line = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
          if (other.first <= r.first) break;
        }
      }
      out[{line, line != kNoLine}] += w;
    }
    for (auto& [key, w] : out) w /= sum;
    return out;
  }

  void placed(const Hypothesis& h, Decoding& out) {
    const hearing::Reading& r = lesson_.lattice.readings[h.reading];
    Mention m;
    std::tie(m.first_word, m.last_word) = words(r);
    const LineId line = h.tree->nodes[static_cast<std::size_t>(h.cursor)].line;
    m.act = h.last_action == Action::kBack || h.last_action == Action::kWalk ? Act::kRevisit
                                                                            : Act::kPlay;
    m.node = node_of_line_.at(line);
    const Line& l = lines_.at(line);
    const Line& before = lines_.at(l.parent);
    const auto fit = hearing::match(r, before.position, l.move, before.position.gives_check(l.move));
    constexpr std::uint16_t changed = hearing::kMendFile | hearing::kMendRank | hearing::kMendPiece |
                                      hearing::kMendOrigin | hearing::kByEar | hearing::kCaptureFalse;
    m.as_heard = (fit.mends & changed) == 0;
    m.confidence = 0;
    for (const auto& [key, share] : shares(r)) {
      if (key.first == line) {
        m.confidence = share;
      } else if (share >= 0.02) {
        Choice c;
        c.share = share;
        c.san = key.second ? board::to_san(lines_.at(lines_.at(key.first).parent).position,
                                           lines_.at(key.first).move)
                           : "no move";
        m.alternatives.push_back(c);
      }
    }
    std::stable_sort(m.alternatives.begin(), m.alternatives.end(),
                     [](const Choice& a, const Choice& b) { return a.share > b.share; });
    if (m.alternatives.size() > 4) m.alternatives.resize(4);
    out.mentions.push_back(std::move(m));
  }

  // What was passed over: an idea where it could be played by either side, else loose if the words
  // are a whole move, else talk.
  void passed(const Hypothesis& h, LineId here, Decoding& out) {
    const hearing::Reading& r = lesson_.lattice.readings[h.reading];
    Mention m;
    std::tie(m.first_word, m.last_word) = words(r);
    m.node = node_of_line_.at(here);
    const board::Position& p = lines_.at(here).position;
    board::Position other = p;
    other.set_side(~p.side_to_move());
    m.act = Act::kLoose;
    for (const board::Position* side : std::initializer_list<const board::Position*>{&p, &other}) {
      if (side == &other && p.in_check()) break;
      board::MoveList moves;
      side->legal_moves(moves);
      float best = 1.6F;
      for (board::Move move : moves) {
        const auto fit = hearing::match(r, *side, move, false);
        if (fit.cost < best) {
          best = fit.cost;
          m.act = Act::kIdea;
          m.idea = board::to_san(*side, move);
        }
      }
      if (m.act == Act::kIdea) break;
    }
    const auto share = shares(r);
    const auto none = share.find({kNoLine, false});
    m.confidence = none == share.end() ? 0 : none->second;
    for (const auto& [key, s] : share) {
      if (!key.second || s < 0.02) continue;
      m.alternatives.push_back({board::to_san(lines_.at(lines_.at(key.first).parent).position,
                                              lines_.at(key.first).move), s});
    }
    std::stable_sort(m.alternatives.begin(), m.alternatives.end(),
                     [](const Choice& a, const Choice& b) { return a.share > b.share; });
    if (m.alternatives.size() > 4) m.alternatives.resize(4);
    if (m.act == Act::kLoose) {
      const bool whole = (r.has_piece && r.has_to && r.best < 1.0F) || (r.takes && r.has_to) || r.castle != 0;
      if (!whole) return;  // a square that is only looked at
      m.why = "no legal move here fits these words";
    }
    out.mentions.push_back(std::move(m));
  }

  const Lesson& lesson_;
  Search& search_;
  LineTree& lines_;
  std::map<LineId, std::int32_t> node_of_line_;
};

}  // namespace

Result<Decoding> decode(const transcript::Transcript& transcript, const DecodeOptions& options) {
  return decode(transcript, options, shipped_model());
}

Result<Decoding> decode(const transcript::Transcript& transcript, const DecodeOptions& options,
                        const Model& model) {
  const hearing::Lattice lattice = hearing::build_lattice(transcript);
  std::vector<StartOption> starts;
  if (options.start.empty()) {
    starts = infer_starts(lattice, transcript.title);
  } else {
    auto given = given_start(options.start);
    if (!given) return given.error();
    starts.push_back(*given);
  }
  Lesson lesson = prepare(lattice, model);
  lesson.side = options.side ? options.side : lesson_side(lattice, transcript.title);

  LineTree lines(model.policy);
  std::map<LineId, const StartOption*> start_of;
  const auto run = [&](Search& search) {
    for (const StartOption& s : starts) {
      auto tree = std::make_shared<HypothesisTree>();
      TreeNode root;
      root.line = lines.root(s.start.position);
      const auto [known, added] = start_of.try_emplace(root.line, &s);
      if (!added && known->second != &s) continue;
      tree->nodes.push_back(root);
      tree->hash = lines.at(root.line).hash;
      Hypothesis h;
      h.tree = std::move(tree);
      h.score = s.gain;
      h.token = s.token;
      h.last_end = s.token;
      search.seed(std::move(h));
    }
    search.run();
  };
  SearchConfig config;
  if (lesson.trust == Trust::kDictated) {
    SearchConfig narrow = config;
    narrow.beam = 20;
    narrow.per_cursor = 2;
    Search first(lesson, model, lines, narrow);
    run(first);
    if (mended_share(first, lesson, lines) < kCleanBelow) lesson.trust = Trust::kClean;
  }
  if (lesson.trust == Trust::kSpokenWords) {
    // Sounds leave more open, and their lattice is thinner: a wider beam costs little.
    config.beam *= 2;
    config.per_cursor += 2;
    config.margin += 4;
  }
  Search search(lesson, model, lines, config);
  run(search);
  const auto& beam = search.beam(search.tokens());
  if (beam.empty() || search.at(beam[0]).tree->nodes.size() < 2) {
    return Error{"expected a lesson with spoken moves; none could be placed"};
  }
  const Hypothesis& best = search.at(beam[0]);
  Decoding out;
  out.start = start_of.at(best.tree->nodes[0].line)->start;
  if (out.start.moves.empty() && out.start.how == "moves said") out.start.how = "initial";
  out.cost = -static_cast<double>(best.score);
  out.side = lesson.side.value_or(board::Color::kWhite);
  Conversion(lesson, search, lines).run(best, out);
  return out;
}

}  // namespace plyscribe::resolve
