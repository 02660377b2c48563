// An explanation as lines for a terminal.
#include <fmt/format.h>

#include <cmath>

#include "resolve/explain.h"
#include "transcript/clock.h"

namespace plyscribe::resolve {
namespace {

constexpr std::size_t kReadings = 12;  // told at most
constexpr std::size_t kPlacements = 10;
constexpr std::size_t kInDetail = 3;  // placements whose terms are told, besides the chosen one
constexpr std::size_t kOutcomes = 6;
constexpr float kSmall = 0.05F;  // nats: terms below are summed up
constexpr std::size_t kColumns = 100;
constexpr std::size_t kPlies = 5;       // of a line
constexpr std::size_t kLongPlies = 12;  // where lines are compared

constexpr const char* kGroupNames[kTermGroups] = {"channel", "sense", "words", "talk"};

// The last moves of a line.
std::string tail(const std::string& line, std::size_t plies = kPlies) {
  std::size_t at = line.size();
  for (std::size_t n = 0; n < plies && at != std::string::npos; ++n) {
    at = at == 0 ? std::string::npos : line.rfind(' ', at - 1);
  }
  return at == std::string::npos ? line : "..." + line.substr(at);
}

std::string place(const WeighedPlacement& p) {
  if (p.move.empty()) return p.action;
  std::string out = p.action + " " + p.move;
  out += p.line.empty() ? " at the start" : " after " + tail(p.line);
  if (p.unsaid > 0) out += fmt::format(" ({} unsaid)", p.unsaid);
  return out;
}

void write_readings(const MentionExplained& m, std::string& out) {
  out +=
      "  readings: cost, cost as talk, pattern (* passing over it has a price), moves at the "
      "cursor\n";
  for (std::size_t i = 0; i < std::min(kReadings, m.readings.size()); ++i) {
    const HeardReading& r = m.readings[i];
    std::string fits;
    for (const HeardFit& f : r.fits) {
      fits += fmt::format("  {} {:.1f}{}", f.san, f.cost,
                          f.mended.empty() ? "" : " (" + f.mended + ")");
    }
    out += fmt::format("   {:5.1f} {:5.1f} {} {:<12} \"{}\"{}\n", r.cost, r.background,
                       r.primary ? '*' : ' ', r.pattern, r.words, fits);
  }
  if (m.readings.empty()) out += "   none\n";
  if (m.readings.size() > kReadings) {
    out += fmt::format("   and {} more\n", m.readings.size() - kReadings);
  }
}

// "      talk     +3.10 action:0, -0.80 action-gap:3 (-0.4 x 2)", wrapped.
void write_terms(const WeighedPlacement& p, std::string& out) {
  for (std::size_t g = 0; g < kTermGroups; ++g) {
    std::string row = fmt::format("        {:<8}", kGroupNames[g]);
    const std::size_t indent = row.size();
    float rest = 0;
    bool any = false;
    const auto add = [&](const std::string& text) {
      if (any && row.size() + 2 + text.size() > kColumns) {
        out += row + ",\n";
        row = std::string(indent, ' ') + text;
      } else {
        row += (any ? ", " : "") + text;
      }
      any = true;
    };
    for (const Term& t : p.terms) {
      if (t.group != static_cast<TermGroup>(g)) continue;
      if (std::abs(t.gain()) < kSmall) {
        rest += t.gain();
      } else if (t.value == 1.0F) {
        add(fmt::format("{:+.2f} {}", t.gain(), t.name));
      } else {
        add(fmt::format("{:+.2f} {} ({:.2f} x {:.2f})", t.gain(), t.name, t.weight, t.value));
      }
    }
    if (std::abs(rest) >= kSmall) add(fmt::format("{:+.2f} small ones", rest));
    if (any) out += row + "\n";
  }
}

void write_weighed(const MentionExplained& m, std::string& out) {
  out +=
      "  weighed by the hypothesis that won (*: what it did)\n"
      "      gain share   channel  sense  words   talk\n";
  for (std::size_t i = 0; i < m.weighed.size(); ++i) {
    const WeighedPlacement& p = m.weighed[i];
    if (i >= kPlacements && !p.chosen) continue;
    out +=
        fmt::format("   {} {:+5.1f} {:4.0f}%    {:+6.1f} {:+6.1f} {:+6.1f} {:+6.1f}   {}  \"{}\"\n",
                    p.chosen ? '*' : ' ', p.gain, 100 * p.share, p.by_group[0], p.by_group[1],
                    p.by_group[2], p.by_group[3], place(p), p.words);
    if (i < kInDetail || p.chosen) write_terms(p, out);
  }
  if (m.weighed.empty()) out += "   nothing\n";
  if (m.weighed.size() > kPlacements) {
    out += fmt::format("   {} were weighed in all\n", m.weighed.size());
  }
}

void write_outcomes(const MentionExplained& m, std::string& out) {
  out +=
      "  outcomes over the beam: place and share when these words end, 30 tokens on, at the end\n";
  for (std::size_t i = 0; i < m.outcomes.size(); ++i) {
    const Outcome& o = m.outcomes[i];
    if (i >= kOutcomes && !o.won && o.rank[0] != 1) continue;
    std::string places;
    for (std::size_t k = 0; k < o.rank.size(); ++k) {
      places += o.rank[k] == 0 ? "      gone"
                               : fmt::format("  {:>2} {:4.0f}%", o.rank[k], 100 * o.share[k]);
    }
    out += fmt::format("   {}{}   {}{}\n", o.won ? '*' : ' ', places, tail(o.what, kLongPlies),
                       o.elsewhere ? " (from another start)" : "");
  }
}

// What the winner owes to what came later.
std::string hindsight(const MentionExplained& m) {
  const Outcome* won = nullptr;
  const Outcome* led = nullptr;
  for (const Outcome& o : m.outcomes) {
    if (o.won) won = &o;
    if (o.rank[0] == 1) led = &o;
  }
  if (won == nullptr || led == nullptr) return "";
  if (won == led) return "  It led from its own words on.\n";
  return fmt::format(
      "  When the words ended it was number {}, behind \"{}\": what came later decided.\n",
      won->rank[0], tail(led->what, kLongPlies));
}

}  // namespace

std::string write_explanation(const std::vector<MentionExplained>& mentions) {
  std::string out;
  for (const MentionExplained& m : mentions) {
    if (!out.empty()) out += "\n";
    out += fmt::format("{}  {} [{}] {}\n", transcript::show_clock(std::floor(m.t)), m.before,
                       m.words, m.after);
    out += fmt::format("  words {}..{}; the board stood {}\n", m.first_word, m.last_word,
                       m.cursor.empty() ? "at the start" : "after " + tail(m.cursor));
    if (m.settled) out += "  Settled by a person's pin: nothing else was weighed.\n";
    write_readings(m, out);
    if (!m.settled) write_weighed(m, out);
    write_outcomes(m, out);
    out += hindsight(m);
  }
  return out;
}

}  // namespace plyscribe::resolve
