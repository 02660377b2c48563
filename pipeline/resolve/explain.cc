#include "resolve/explain.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "board/notation.h"
#include "grammar/grammar.h"
#include "resolve/conversion.h"

namespace plyscribe::resolve {
namespace {

constexpr const char* kActionNames[kActions] = {"play",    "walk", "beside",   "beside earlier",
                                                "back to", "jump", "pass over"};
constexpr std::uint32_t kReach = 8;  // tokens before the words at which a reading of them may begin
constexpr std::uint32_t kAround = 8;  // words shown before and after
constexpr std::size_t kFitsShown = 4;

TermGroup group_of(Slot slot) {
  switch (slot) {
    case Slot::kChannel:
    case Slot::kBackground:
    case Slot::kMend:
    case Slot::kByEar:
      return TermGroup::kChannel;
    case Slot::kLogPolicy:
    case Slot::kLogShare:
    case Slot::kUnlikely:
    case Slot::kBook:
      return TermGroup::kPolicy;
    case Slot::kSideNamed:
    case Slot::kLessonSide:
      return TermGroup::kContext;
    default:
      return TermGroup::kDiscourse;
  }
}

Term term_of(const Model& model, std::uint32_t id, float value) {
  Term out;
  out.value = value;
  out.weight = model.weights[id];
  if (id >= structural_features()) {
    const auto context = static_cast<std::uint32_t>((id - structural_features()) / kActions);
    out.group = TermGroup::kContext;
    out.name = model.context_name(context);
    return out;
  }
  std::uint32_t bucket = id;
  std::size_t slot = 0;
  while (bucket >= kSlotShapes[slot].buckets) bucket -= kSlotShapes[slot++].buckets;
  out.group = group_of(static_cast<Slot>(slot));
  out.name = fmt::format("{}:{}", kSlotShapes[slot].name, bucket);
  return out;
}

std::string mends(std::uint16_t bits) {
  constexpr const char* kNames[] = {"file",           "rank",          "piece",  "piece unsaid",
                                    "capture unsaid", "no capture",    "origin", "no check",
                                    "check unsaid",   "target unsaid", "by ear"};
  std::string out;
  for (std::size_t b = 0; b < std::size(kNames); ++b) {
    if (((bits >> b) & 1) != 0) out += (out.empty() ? "" : ", ") + std::string(kNames[b]);
  }
  return out;
}

class Explainer {
 public:
  Explainer(Decoder& decoder, const transcript::Transcript& transcript)
      : lesson_(decoder.lesson()),
        search_(*decoder.search()),
        lines_(decoder.lines()),
        model_(decoder.model()),
        transcript_(transcript),
        chain_(best_chain(search_)) {}

  std::vector<MentionExplained> run(double from, double to) {
    std::vector<MentionExplained> out;
    const auto& tokens = lesson_.lattice.tokens;
    for (std::size_t k = 1; k < chain_.size(); ++k) {
      const hearing::Reading& r = lesson_.lattice.readings[search_.at(chain_[k]).reading];
      if (spoken(tokens[r.first].word, tokens[r.last - 1].word, from, to)) {
        out.push_back(mention(r.first, r.last, k - 1, static_cast<std::int32_t>(k)));
      }
    }
    if (!out.empty()) return out;
    std::uint32_t first = 0;
    while (first < tokens.size() && !spoken(tokens[first].word, tokens[first].word, from, to)) {
      ++first;
    }
    std::uint32_t last = first;
    while (last < tokens.size() && spoken(tokens[last].word, tokens[last].word, from, to)) ++last;
    if (first == last) return out;
    std::size_t before = 0;
    for (std::size_t k = 1; k < chain_.size(); ++k) {
      if (lesson_.lattice.readings[search_.at(chain_[k]).reading].last <= first) before = k;
    }
    out.push_back(mention(first, last, before, -1));
    return out;
  }

 private:
  bool spoken(std::uint32_t first_word, std::uint32_t last_word, double from, double to) const {
    const double start = transcript_.words[first_word].start;
    const double end = transcript_.words[last_word].end;
    return start < to && (end > from || start >= from);
  }

  std::string words(std::uint32_t first, std::uint32_t last) const {  // of the transcript
    std::string out;
    for (std::uint32_t w = first; w < last; ++w) {
      const transcript::Word& word = transcript_.words[w];
      out += (out.empty() ? "" : " ") + word.lead + word.text + word.trail;
    }
    return out;
  }

  std::string heard(std::uint32_t first, std::uint32_t last) const {  // tokens
    std::string out;
    for (std::uint32_t t = first; t < last; ++t) {
      out += (out.empty() ? "" : " ") + lesson_.lattice.tokens[t].raw;
    }
    return out;
  }

  std::string line_text(LineId line) const {
    std::string out;
    for (; lines_.at(line).parent != kNoLine; line = lines_.at(line).parent) {
      const Line& l = lines_.at(line);
      out = board::to_san(lines_.at(l.parent).position, l.move) + (out.empty() ? "" : " ") + out;
    }
    return out;
  }

  // Other hypotheses may have begun elsewhere.
  bool from_another_start(LineId line) const {
    while (lines_.at(line).parent != kNoLine) line = lines_.at(line).parent;
    return line != search_.at(chain_[0]).line;
  }

  LineId cursor(std::int32_t hypothesis) const { return search_.at(hypothesis).line; }

  // `step`: the winner's own at these words, index into chain_, or -1.
  MentionExplained mention(std::uint32_t first, std::uint32_t last, std::size_t before,
                           std::int32_t step) {
    MentionExplained out;
    const auto& tokens = lesson_.lattice.tokens;
    out.first_word = tokens[first].word;
    out.last_word = tokens[last - 1].word + 1;
    out.t = transcript_.words[out.first_word].start;
    out.t_end = transcript_.words[out.last_word - 1].end;
    out.words = words(out.first_word, out.last_word);
    out.before = words(out.first_word > kAround ? out.first_word - kAround : 0, out.first_word);
    out.after = words(
        out.last_word,
        std::min(out.last_word + kAround, static_cast<std::uint32_t>(transcript_.words.size())));
    const std::int32_t stood = chain_[before];
    out.cursor = line_text(cursor(stood));
    out.settled = lesson_.pins.over(first, last) != nullptr;
    const std::uint32_t since =
        search_.at(stood).reading == kNoReading ? 0 : earliest(search_.at(stood));
    std::uint32_t t = std::max(since, first > kReach ? first - kReach : 0);
    for (; t < last; ++t) {
      readings(t, first, last, stood, out);
      if (!out.settled) weighed(t, first, last, stood, step, out);
    }
    finish(out);
    outcomes(first, last, out);
    return out;
  }

  // Where the hypothesis can read on. After a pass that is the next token, not the reading's end.
  std::uint32_t earliest(const Hypothesis& h) const {
    const hearing::Reading& r = lesson_.lattice.readings[h.reading];
    return h.last_action == Action::kNone ? r.first + 1 : r.last;
  }

  void readings(std::uint32_t t, std::uint32_t first, std::uint32_t last, std::int32_t stood,
                MentionExplained& out) {
    const auto& lattice = lesson_.lattice;
    const board::Position& position = lines_.at(cursor(stood)).position;
    for (std::uint32_t i = lattice.first_at[t]; i < lattice.first_at[t + 1]; ++i) {
      const hearing::Reading& r = lattice.readings[i];
      if (r.last <= first || r.first >= last) continue;
      HeardReading h;
      h.words = heard(r.first, r.last);
      h.pattern = grammar::grammar().patterns()[r.pattern].name;
      h.cost = r.best;
      h.background = r.background;
      h.primary =
          std::find(lattice.primary.begin(), lattice.primary.end(), i) != lattice.primary.end();
      for (const Fit& f : search_.fits(cursor(stood), i)) {
        if (h.fits.size() == kFitsShown) break;
        h.fits.push_back({board::to_san(position, f.move), f.match.cost, mends(f.match.mends)});
      }
      out.readings.push_back(std::move(h));
    }
  }

  void weighed(std::uint32_t t, std::uint32_t first, std::uint32_t last, std::int32_t stood,
               std::int32_t step, MentionExplained& out) {
    for (const Weighed& w : search_.weigh(stood, t)) {
      const hearing::Reading& r = lesson_.lattice.readings[w.reading];
      if (r.last <= first || r.first >= last) continue;
      WeighedPlacement p;
      p.words = heard(r.first, r.last);
      p.action = kActionNames[static_cast<std::size_t>(w.action)];
      p.unsaid = w.unsaid;
      p.gain = w.gain;
      LineId line = kNoLine;
      if (w.action != Action::kNone) {
        p.line = line_text(w.under);
        p.move = board::to_san(lines_.at(w.under).position, w.move);
        line = lines_.child(w.under, w.move);
      }
      if (step >= 0) {
        const Hypothesis& h = search_.at(chain_[static_cast<std::size_t>(step)]);
        p.chosen = h.reading == w.reading && h.last_action == w.action &&
                   (line == kNoLine || line == cursor(chain_[static_cast<std::size_t>(step)]));
      }
      for (const auto& [id, value] : w.features) {
        Term term = term_of(model_, id, value);
        p.by_group[static_cast<std::size_t>(term.group)] += term.gain();
        if (term.gain() != 0) p.terms.push_back(std::move(term));
      }
      std::stable_sort(p.terms.begin(), p.terms.end(), [](const Term& a, const Term& b) {
        return std::abs(a.gain()) > std::abs(b.gain());
      });
      out.weighed.push_back(std::move(p));
    }
  }

  static void finish(MentionExplained& out) {
    std::stable_sort(
        out.weighed.begin(), out.weighed.end(),
        [](const WeighedPlacement& a, const WeighedPlacement& b) { return a.gain > b.gain; });
    double sum = 0;
    for (WeighedPlacement& p : out.weighed) {
      p.share = std::exp(static_cast<double>(p.gain - out.weighed[0].gain));
      sum += p.share;
    }
    for (WeighedPlacement& p : out.weighed) p.share /= sum;
  }

  void outcomes(std::uint32_t first, std::uint32_t last, MentionExplained& out) {
    const std::uint32_t when[] = {last, last + kHindsight, search_.tokens()};
    const LineId winner =
        placed_on(lesson_, search_, search_.beam(search_.tokens())[0], first, last);
    std::map<LineId, Outcome> by_line;
    for (std::size_t k = 0; k < std::size(when); ++k) {
      std::vector<std::pair<double, LineId>> order;
      for (const auto& [line, share] : beam_shares(lesson_, search_, when[k], first, last)) {
        order.emplace_back(share, line);
      }
      std::sort(order.begin(), order.end(), [](const auto& a, const auto& b) {
        return a.first != b.first ? a.first > b.first : a.second < b.second;
      });
      for (std::size_t i = 0; i < order.size(); ++i) {
        Outcome& o = by_line[order[i].second];
        o.share[k] = order[i].first;
        o.rank[k] = static_cast<int>(i) + 1;
      }
    }
    for (auto& [line, o] : by_line) {
      o.what = line == kNoLine ? "nothing placed" : line_text(line);
      o.elsewhere = line != kNoLine && from_another_start(line);
      o.won = line == winner;
      out.outcomes.push_back(std::move(o));
    }
    std::stable_sort(out.outcomes.begin(), out.outcomes.end(),
                     [](const Outcome& a, const Outcome& b) {
                       for (const std::size_t k : {2, 1, 0}) {
                         if (a.share[k] != b.share[k]) return a.share[k] > b.share[k];
                       }
                       return a.what < b.what;
                     });
  }

  const Lesson& lesson_;
  Search& search_;
  LineTree& lines_;
  const Model& model_;
  const transcript::Transcript& transcript_;
  std::vector<std::int32_t> chain_;  // first the start
};

}  // namespace

std::vector<MentionExplained> explain(Decoder& decoder, const transcript::Transcript& transcript,
                                      double from, double to) {
  return Explainer(decoder, transcript).run(from, to);
}

}  // namespace plyscribe::resolve
