#include "resolve/decoder.h"

#include <algorithm>
#include <cmath>
#include <unordered_set>

#include "hearing/lattice.h"
#include "resolve/conversion.h"

namespace plyscribe::resolve {
namespace {

constexpr std::uint32_t kSnapshots = 32;  // tokens between two places to restart at

constexpr std::size_t kStarts = 300;  // that are tried in a narrow search

// Most of what sets starts apart is said late, most starts are given up early.
const std::vector<StartStage> kNarrowing = {
    {18, kStarts, 2}, {36, 32, 20}, {66, 16, 20}, {110, 8, 20, 30}, {SIZE_MAX, 4, 20, 20}};
constexpr std::size_t kStartsKept = 2;   // of the last, for the full search
constexpr float kStartsApart = 10;       // nats: worse ones are not kept
constexpr double kStartTemperature = 4;  // nats of the search for one of certainty

// Likely mentions after which the narrow search ends, if no more than one start is left: enough to
// tell whether the notation can be trusted.
constexpr std::size_t kLook = 120;
constexpr double kCleanBelow = 0.055;  // share of mends under which notation is taken as clean

// Of a decode's time, about: where its two searches end. What the decoding is made of the rest.
constexpr double kFirstSearch = 0.2, kSearched = 0.95;

// The steps [from, to] of a search, which are [begin, end] of the whole work.
void run(Search& search, std::uint32_t from, std::uint32_t to, const DecodeOptions& options,
         double begin, double end) {
  for (std::uint32_t t = from; t <= to; ++t) {
    search.step(t);
    if (options.progress) options.progress(begin + (end - begin) * t / std::max(1U, to));
  }
}

bool one_start(const Search& search, std::uint32_t token) {
  const auto& beam = search.beam(token);
  const auto root = [&](std::int32_t i) { return search.at(i).tree->nodes[0].line; };
  return !beam.empty() && std::all_of(beam.begin(), beam.end(),
                                      [&](std::int32_t i) { return root(i) == root(beam[0]); });
}

// Runs a narrow search until it has seen enough; where it ended.
std::uint32_t look(Search& search, const hearing::Lattice& lattice, const DecodeOptions& options) {
  const std::uint32_t enough = lattice.primary.size() <= kLook
                                   ? search.tokens()
                                   : lattice.readings[lattice.primary[kLook]].first;
  std::uint32_t t = 0;
  while (true) {
    search.step(t);
    if (options.progress) options.progress(kFirstSearch * t / std::max(1U, search.tokens()));
    if (t == search.tokens() || (t >= enough && one_start(search, t))) return t;
    ++t;
  }
}

// Of the moves that the best hypothesis placed, the share that it had to hear differently.
double mended_share(const Search& search, std::uint32_t token, const Lesson& lesson,
                    const LineTree& lines) {
  if (search.beam(token).empty()) return 1;
  double placed = 0;
  double mended = 0;
  for (std::int32_t i : best_chain(search, token)) {
    const Hypothesis& h = search.at(i);
    if (h.reading == kNoReading || h.last_action == Action::kNone) continue;
    const Line& line = lines.at(h.tree->nodes[static_cast<std::size_t>(h.cursor)].line);
    if (line.parent == kNoLine) continue;
    const auto fit = hearing::match(lesson.lattice.readings[h.reading],
                                    lines.at(line.parent).position, line.move, false);
    ++placed;
    if ((fit.mends & (kHeardOtherwise | hearing::kCaptureUnsaid)) != 0) ++mended;
  }
  return mended / std::max(placed, 1.0);
}

}  // namespace

Decoder::Decoder(const transcript::Transcript& transcript, bool once)
    : Decoder(transcript, shipped_model(), once) {}

Decoder::Decoder(const transcript::Transcript& transcript, const Model& model, bool once)
    : model_(model), once_(once), title_(transcript.title), lines_(model.policy) {
  lesson_ = prepare(hearing::build_lattice(transcript), model);
  trust_ = lesson_.trust;
  told_ = lesson_side(lesson_.lattice, title_);
}

void Decoder::seed(Search& search) {
  for (std::size_t i = 0; i < starts_.size(); ++i) {
    const StartOption& s = starts_[i];
    auto tree = std::make_shared<HypothesisTree>();
    TreeNode root;
    root.line = lines_.root(s.start.position);
    const auto [known, added] = start_of_.try_emplace(root.line, i);
    if (!added && known->second != i) continue;
    tree->nodes.push_back(root);
    tree->hash = lines_.at(root.line).hash;
    Hypothesis h;
    h.tree = std::move(tree);
    h.score = s.gain;
    h.token = s.token;
    h.last_end = s.token;
    search.seed(std::move(h), s.start.moves);
  }
}

SearchConfig Decoder::config() const {
  SearchConfig config;
  config.snapshots = once_ ? 0 : kSnapshots;
  if (lesson_.trust == Trust::kSpokenWords) {
    // Sounds leave more open, and their lattice is thinner: a wider beam costs little.
    config.beam *= 2;
    config.per_cursor += 2;
    config.margin += 4;
  }
  if (starts_.size() > 1)
    config.stages = {{SIZE_MAX, starts_.size(), config.beam, config.margin + kStartsApart}};
  return config;
}

// Another start or side: all is searched anew. Which starts are worth a full search, and whether
// the notation can be trusted, is found by a narrow one, without pins, so that a pin changes
// nothing before it.
void Decoder::begin(const DecodeOptions& options) {
  search_.reset();
  start_ = options.start;
  side_ = options.side;
  start_of_.clear();
  set_pins(lesson_, {});
  lesson_.side = options.side ? options.side : told_;
  lesson_.trust = trust_;
  const bool dictated = lesson_.trust == Trust::kDictated;
  const bool many = starts_.size() > 1;
  start_share_ = 1;
  if (!dictated && !many) return;
  SearchConfig narrow;
  narrow.beam = 20;
  narrow.per_cursor = 2;
  if (many) narrow.stages = kNarrowing;
  Search first(lesson_, model_, lines_, narrow);
  seed(first);
  const std::uint32_t seen = look(first, lesson_.lattice, options);
  if (dictated && mended_share(first, seen, lesson_, lines_) < kCleanBelow) {
    lesson_.trust = Trust::kClean;
  }
  if (many) keep_starts(first, seen);
}

// Of many starts, those that make most sense of the lesson.
void Decoder::keep_starts(const Search& first, std::uint32_t seen) {
  const auto& beam = first.beam(seen);  // the best first
  std::vector<std::size_t> kept;
  std::unordered_set<LineId> roots;
  double shares = 0;
  for (const std::int32_t i : beam) {
    const LineId root = first.at(i).tree->nodes[0].line;
    if (!roots.insert(root).second) continue;
    const float behind = first.at(beam[0]).score - first.at(i).score;
    shares += std::exp(-static_cast<double>(behind) / kStartTemperature);
    if (kept.size() < kStartsKept && behind < kStartsApart) kept.push_back(start_of_.at(root));
  }
  if (kept.empty()) kept.push_back(0);
  start_share_ = 1 / std::max(shares, 1.0);
  std::vector<StartOption> starts;
  for (const std::size_t start : kept) starts.push_back(starts_[start]);
  starts_ = std::move(starts);
  start_of_.clear();
}

Result<Decoding> Decoder::decode(const DecodeOptions& options) {
  if (search_ == nullptr || once_ || options.start != start_ || options.side != side_) {
    if (options.start.empty()) {
      if (inferred_.empty()) inferred_ = infer_starts(lesson_.lattice, title_, kStarts);
      starts_ = inferred_;
    } else {
      const auto given = given_start(options.start);
      if (!given) return given.error();
      starts_ = {*given};
    }
    begin(options);
    set_pins(lesson_, options.pins);
    search_ = std::make_unique<Search>(lesson_, model_, lines_, config());
    seed(*search_);
    run(*search_, 0, search_->tokens(), options, kFirstSearch, kSearched);
  } else {
    const std::uint32_t changed = set_pins(lesson_, options.pins);
    run(*search_, search_->rewind(changed), search_->tokens(), options, kFirstSearch, kSearched);
  }
  const auto& beam = search_->beam(search_->tokens());
  if (beam.empty() || search_->at(beam[0]).tree->nodes.size() < 2) {
    return Error{"expected a lesson with spoken moves; none could be placed"};
  }
  const Hypothesis& best = search_->at(beam[0]);
  Decoding out;
  out.start = starts_[start_of_.at(best.tree->nodes[0].line)].start;
  if (out.start.moves.empty() && out.start.how == "moves said") out.start.how = "initial";
  out.cost = -static_cast<double>(best.score);
  out.start.confidence = start_share_;
  out.side = lesson_.side.value_or(board::Color::kWhite);
  convert(lesson_, *search_, lines_, model_, out);
  out.unheld = lesson_.pins.unheld;
  for (UnheldPin& pin : search_->unheld()) out.unheld.push_back(std::move(pin));
  std::sort(out.unheld.begin(), out.unheld.end(),
            [](const UnheldPin& a, const UnheldPin& b) { return a.pin < b.pin; });
  return out;
}

}  // namespace plyscribe::resolve
