#include "resolve/decoder.h"

#include <algorithm>
#include <utility>

#include "hearing/lattice.h"
#include "resolve/conversion.h"
#include "resolve/start_search.h"

namespace plyscribe::resolve {
namespace {

constexpr std::uint32_t kSnapshots = 32;  // tokens between two places to restart at

constexpr std::size_t kStarts = 300;  // that are weighed

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

}  // namespace

Decoder::Decoder(const transcript::Transcript& transcript, bool once)
    : Decoder(transcript, shipped_model(), once) {}

Decoder::Decoder(const transcript::Transcript& transcript, const Model& model, bool once)
    : model_(model), once_(once), title_(transcript.title), lines_(model.policy) {
  lesson_ = prepare(hearing::build_lattice(transcript), model);
  trust_ = lesson_.trust;
  told_ = lesson_side(lesson_.lattice, title_);
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
  if (starts_.size() > 1) {
    config.stages = {{SIZE_MAX, starts_.size(), config.beam, config.margin + kNearTie}};
  }
  return config;
}

// Another start or side: all is searched anew.
void Decoder::begin(const DecodeOptions& options) {
  search_.reset();
  start_ = options.start;
  side_ = options.side;
  set_pins(lesson_, {});
  lesson_.side = options.side ? options.side : told_;
  lesson_.trust = trust_;
  NarrowedStarts narrowed =
      narrow_starts(lesson_, model_, lines_, std::move(starts_), [&](double done) {
        if (options.progress) options.progress(kFirstSearch * done);
      });
  starts_ = std::move(narrowed.starts);
  start_share_ = narrowed.share;
  if (narrowed.clean) lesson_.trust = Trust::kClean;
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
    start_of_ = seed_starts(starts_, lines_, *search_);
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
