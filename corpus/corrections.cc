#include "corpus/corrections.h"

#include <fmt/format.h>

#include <algorithm>
#include <ctime>
#include <map>
#include <optional>

#include "board/notation.h"
#include "resolve/decoder.h"

namespace plyscribe::corpus {
namespace {

using resolve::Decoding;
using resolve::Pin;

struct Words {
  std::uint32_t first = 0, last = 0;
  bool empty() const { return last <= first; }
  std::uint32_t shared(const Words& o) const {
    const std::uint32_t lo = std::max(first, o.first);
    const std::uint32_t hi = std::min(last, o.last);
    return hi > lo ? hi - lo : 0;
  }
};

// One difference between the trees, at the words where it was said first.
struct Difference {
  Words words;
  int gold_mention = -1;  // what was meant there; -1: no move
  std::string text;
};

class Oracle {
 public:
  Oracle(const Gold& gold, const transcript::Transcript& transcript)
      : gold_(gold), transcript_(transcript), decoder_(transcript) {
    lay_out_mentions();
    out_.spoken = gold.spoken.size();
  }

  Result<Corrections> run() {
    for (;;) {
      const std::clock_t before = std::clock();
      const auto decoded = decoder_.decode({out_.start, std::nullopt, out_.pins});
      const double took = static_cast<double>(std::clock() - before) / CLOCKS_PER_SEC;
      if (!decoded) return decoded.error();
      out_.decode_seconds.push_back(took);
      const std::vector<Difference> differences = compare(*decoded);
      if (differences.empty()) return out_;
      if (!start_fits(*decoded)) {
        pin_start();
        continue;
      }
      const bool fixed = std::any_of(differences.begin(), differences.end(),
                                     [&](const Difference& d) { return fix(d, *decoded); });
      if (fixed) continue;
      for (const Difference& d : differences) out_.left.push_back(d.text);
      return out_;
    }
  }

 private:
  // Words of each gold mention; where two share words, the first gives way at its end. Two in one
  // word both have it.
  void lay_out_mentions() {
    const auto& lattice = decoder_.lesson().lattice;
    const Alignment alignment(gold_, transcript_, lattice);
    for (const GoldMention& m : gold_.mentions) {
      const Span span = alignment.tokens(m.first, m.last);
      Words w{lattice.tokens[span.lo].word, lattice.tokens[span.hi - 1].word + 1};
      if (!mentions_.empty() && w.first < mentions_.back().last) {
        Words& before = mentions_.back();
        if (before.last - before.first > 1 && w.last <= before.last) --before.last;
        w.first = std::min(before.last, w.last - 1);
      }
      mentions_.push_back(w);
    }
  }

  std::vector<board::Move> gold_line(int node) const {
    std::vector<board::Move> out;
    for (; node > 0; node = gold_.nodes[static_cast<std::size_t>(node)].parent) {
      out.push_back(gold_.nodes[static_cast<std::size_t>(node)].move);
    }
    std::reverse(out.begin(), out.end());
    return out;
  }

  // Moves from the decoded start to the gold start, if it can be reached.
  std::optional<std::vector<board::Move>> to_gold_start(const Decoding& d) const {
    const std::string here = board::to_fen_placement(d.start.position);
    if (here == board::to_fen_placement(gold_.nodes[0].position)) return std::vector<board::Move>();
    board::Position p = board::Position::initial();
    for (std::size_t k = 0; k < gold_.start_moves.size(); ++k) {
      if (board::to_fen_placement(p) == here) {
        return std::vector<board::Move>(gold_.start_moves.begin() + static_cast<std::ptrdiff_t>(k),
                                        gold_.start_moves.end());
      }
      p = p.after(gold_.start_moves[k]);
    }
    return std::nullopt;
  }

  bool start_fits(const Decoding& d) const {
    return !out_.start.empty() || to_gold_start(d).has_value();
  }

  void pin_start() {
    if (gold_.start_moves.empty()) {
      out_.start = board::to_fen(gold_.nodes[0].position);
    } else {
      board::Position p = board::Position::initial();
      for (board::Move m : gold_.start_moves) {
        out_.start += (out_.start.empty() ? "" : " ") + board::to_san(p, m);
        p = p.after(m);
      }
    }
    out_.fixes.push_back({0, "", "the start is " + out_.start});
  }

  std::vector<Difference> compare(const Decoding& d) const {
    std::set<std::string> edges;
    board::Position p = board::Position::initial();
    for (board::Move m : d.start.moves) {
      edges.insert(edge_key(p, m));
      p = p.after(m);
    }
    for (std::size_t n = 1; n < d.nodes.size(); ++n) edges.insert(key(d, n));
    std::vector<Difference> out;
    for (std::size_t n = 1; n < d.nodes.size(); ++n) {
      const std::string k = key(d, n);
      if (gold_.spoken.count(k) == 0 && gold_.free.count(k) == 0) out.push_back(extra(d, n));
    }
    std::set<int> missed;
    for (std::size_t i = 0; i < gold_.mentions.size(); ++i) {
      const int node = gold_.mentions[i].node;
      if (node == 0 || !missed.insert(node).second) continue;
      const GoldNode& g = gold_.nodes[static_cast<std::size_t>(node)];
      const GoldNode& up = gold_.nodes[static_cast<std::size_t>(g.parent)];
      const std::string k = edge_key(up.position, g.move);
      if (gold_.spoken.count(k) == 0 || edges.count(k) != 0) continue;
      out.push_back({mentions_[i], static_cast<int>(i),
                     fmt::format("{} is missing", board::to_san(up.position, g.move))});
    }
    std::stable_sort(out.begin(), out.end(), [](const Difference& a, const Difference& b) {
      return a.words.first < b.words.first;
    });
    return out;
  }

  static std::string key(const Decoding& d, std::size_t node) {
    const resolve::Node& n = d.nodes[node];
    return edge_key(d.nodes[static_cast<std::size_t>(n.parent)].position, n.move);
  }

  // A node that the gold tree doesn't have, at the first words that named it or a move behind it.
  Difference extra(const Decoding& d, std::size_t node) const {
    const resolve::Node& n = d.nodes[node];
    Difference out;
    out.text = fmt::format(
        "{} is extra", board::to_san(d.nodes[static_cast<std::size_t>(n.parent)].position, n.move));
    const auto behind = [&](std::int32_t at) {
      while (at > static_cast<std::int32_t>(node))
        at = d.nodes[static_cast<std::size_t>(at)].parent;
      return at == static_cast<std::int32_t>(node);
    };
    for (const resolve::Mention& m : d.mentions) {
      if (m.act != resolve::Act::kPlay && m.act != resolve::Act::kRevisit) continue;
      if (!behind(m.node)) continue;
      out.words = {m.first_word, m.last_word};
      break;
    }
    std::uint32_t most = 0;
    for (std::size_t i = 0; i < mentions_.size(); ++i) {
      const std::uint32_t shared = mentions_[i].shared(out.words);
      if (shared <= most) continue;
      most = shared;
      out.gold_mention = static_cast<int>(i);
    }
    return out;
  }

  // One pin for the difference; false if these words are settled already.
  bool fix(const Difference& d, const Decoding& decoding) {
    Pin pin;
    Words words = d.words;
    std::string what = "is no move";
    if (d.gold_mention >= 0) {
      const auto g = static_cast<std::size_t>(d.gold_mention);
      words = mentions_[g];
      const auto to_start = to_gold_start(decoding);
      if (!to_start) return false;
      std::vector<board::Move> line = *to_start;
      for (board::Move m : gold_line(gold_.mentions[g].node)) line.push_back(m);
      board::Position p = decoding.start.position;
      for (board::Move m : line) {
        pin.line.push_back(board::to_san(p, m));
        p = p.after(m);
      }
      if (pin.line.empty()) return false;
      pin.kind = Pin::Kind::kLine;
      what = "is " + fmt::format("{}", fmt::join(pin.line, " "));
    } else {
      pin.kind = Pin::Kind::kNoMove;
      for (const Words& other : mentions_) {  // words of true mentions stay theirs
        if (other.shared(words) == 0) continue;
        if (other.first <= words.first)
          words.first = other.last;
        else
          words.last = other.first;
      }
    }
    if (words.empty()) return false;
    pin.first_word = words.first;
    pin.last_word = words.last;
    const auto shares = [&](const Pin& p) { return words.shared({p.first_word, p.last_word}) > 0; };
    // "No move" gives way to a move, and a line to one that goes on from it (two moves in one word:
    // the first becomes an unsaid one); else what is settled stays.
    for (const Pin& p : out_.pins) {
      if (!shares(p)) continue;
      const bool gives_way = pin.kind == Pin::Kind::kLine &&
                             (p.kind == Pin::Kind::kNoMove ||
                              (p.line.size() < pin.line.size() &&
                               std::equal(p.line.begin(), p.line.end(), pin.line.begin())));
      if (!gives_way) return false;
    }
    std::erase_if(out_.pins, shares);
    Fix fix{transcript_.words[words.first].start, "", std::move(what)};
    for (std::uint32_t w = words.first; w < words.last; ++w) {
      fix.heard += (w == words.first ? "" : " ") + transcript_.words[w].text;
    }
    out_.fixes.push_back(std::move(fix));
    out_.pins.push_back(std::move(pin));
    return true;
  }

  const Gold& gold_;
  const transcript::Transcript& transcript_;
  resolve::Decoder decoder_;
  std::vector<Words> mentions_;  // of gold_.mentions
  Corrections out_;
};

}  // namespace

double Corrections::per_hundred() const {
  return spoken == 0 ? 0 : 100.0 * static_cast<double>(fixes.size()) / static_cast<double>(spoken);
}

Result<Corrections> correct(const Gold& gold, const transcript::Transcript& transcript) {
  return Oracle(gold, transcript).run();
}

}  // namespace plyscribe::corpus
