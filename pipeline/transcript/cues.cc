#include "transcript/cues.h"

#include <algorithm>
#include <cctype>
#include <optional>
#include <utility>

#include "transcript/builder.h"
#include "transcript/clock.h"
#include "transcript/words.h"

namespace plyscribe::transcript {
namespace {

constexpr double kBackwards = 10.0;       // seconds; two voices may overlap by so much
constexpr std::size_t kMaxOverlap = 100;  // words that may roll from one cue into the next
constexpr std::size_t kSureOverlap = 3;   // words; shorter repeats may be speech: "takes", "takes"

struct Shown {
  std::vector<Token> tokens;           // all lines
  std::vector<std::size_t> line_ends;  // in words
  std::vector<std::string> words;      // lower case, without marks
  std::size_t overlap = 0;             // first words that the cue before has shown
};

Shown split(const Cue& cue) {
  Shown shown;
  for (const MappedText& line : cue.lines) {
    for (Token& t : split_words(line)) {
      if (!t.text.empty()) {
        std::string word = t.text;
        for (char& c : word) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        shown.words.push_back(std::move(word));
      }
      shown.tokens.push_back(std::move(t));
    }
    shown.line_ends.push_back(shown.words.size());
  }
  return shown;
}

// Most words that both end `before` and begin `now`, up to the end of a line or all of `before`.
std::size_t common_words(const Shown& before, const Shown& now) {
  const std::size_t most = std::min({before.words.size(), now.words.size(), kMaxOverlap});
  for (std::size_t n = most; n > 0; --n) {
    const bool whole =
        n == before.words.size() ||
        std::find(now.line_ends.begin(), now.line_ends.end(), n) != now.line_ends.end();
    if (whole && std::equal(now.words.begin(), now.words.begin() + static_cast<std::ptrdiff_t>(n),
                            before.words.end() - static_cast<std::ptrdiff_t>(n))) {
      return n;
    }
  }
  return 0;
}

// Finds what rolls. A long repeat is always dropped, a short one or a whole cue said again only in
// a file that rolls throughout, or where the second cue follows the first without a gap.
void find_overlaps(const std::vector<Cue>& cues, std::vector<Shown>& shown) {
  std::size_t sure = 0, steps = 0;
  for (std::size_t i = 1; i < cues.size(); ++i) {
    shown[i].overlap = common_words(shown[i - 1], shown[i]);
    steps += !shown[i].words.empty();
    sure += shown[i].overlap >= kSureOverlap;
  }
  const bool rolls = sure >= 2 && sure * 5 >= steps;
  for (std::size_t i = 1; i < cues.size(); ++i) {
    const bool said_again = shown[i].overlap == shown[i].words.size();
    const bool touches = cues[i].start <= cues[i - 1].end + 0.1;
    if (!rolls && (shown[i].overlap < kSureOverlap || (said_again && !touches)))
      shown[i].overlap = 0;
  }
}

void add(const Cue& cue, Shown& shown, Builder& builder) {
  builder.caption(cue.start, cue.end);
  if (!cue.marks.empty()) builder.span(cue.start);
  std::vector<Token> run;
  std::size_t words = 0, mark = 0;
  double last = cue.start;
  for (Token& t : shown.tokens) {
    words += !t.text.empty();
    if (shown.overlap > 0 && words <= shown.overlap) continue;
    std::optional<double> now;
    for (; !t.text.empty() && mark < cue.marks.size() && cue.marks[mark].offset <= t.origin.begin;
         ++mark) {
      const double time = cue.marks[mark].time;
      if (time >= last && (cue.end < cue.start || time <= cue.end)) now = last = time;
    }
    if (now) {
      builder.tokens(std::exchange(run, {}));
      builder.span(*now);
    }
    run.push_back(std::move(t));
  }
  builder.tokens(std::move(run));
}

}  // namespace

Result<Transcript> read_cues(const Source& source, std::vector<Cue> cues, Format format,
                             std::string title) {
  double last = 0;
  for (const Cue& cue : cues) {
    if (cue.start < last - kBackwards) {
      return source.expected(
          cue.at, "a time not before " + show_clock(last) + ", found " + show_clock(cue.start));
    }
    last = std::max(last, cue.start);
  }
  std::stable_sort(cues.begin(), cues.end(),
                   [](const Cue& a, const Cue& b) { return a.start < b.start; });

  std::vector<Shown> shown;
  shown.reserve(cues.size());
  for (const Cue& cue : cues) shown.push_back(split(cue));
  find_overlaps(cues, shown);
  Builder builder(source);
  for (std::size_t i = 0; i < cues.size(); ++i) add(cues[i], shown[i], builder);
  builder.title(std::move(title));
  return builder.finish(format);
}

}  // namespace plyscribe::transcript
