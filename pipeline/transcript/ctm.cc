// Reader of CTM, the time-marked conversation format of NIST's scoring tools.
//
//   ;; file channel start duration word [confidence]
//   lesson A 3.10 0.25 after 0.93
//   lesson A * * <ALT_BEGIN>
//   lesson A 3.35 0.20 c
//   lesson A * * <ALT>
//   lesson A 3.35 0.20 see
//   lesson A * * <ALT_END>
//
// The first branch of an alternation is what was heard, the others become alternatives of its
// words.
// "@" is the empty word. Words in angle or square brackets are noises and are left out.
#include <algorithm>
#include <optional>
#include <utility>

#include "transcript/builder.h"
#include "transcript/clock.h"
#include "transcript/clock_repair.h"
#include "transcript/cue_timing.h"
#include "transcript/nbest.h"
#include "transcript/readers.h"

namespace plyscribe::transcript {
namespace {

constexpr double kBackwards = 60;  // seconds; a recogniser's clock may jump by so much
constexpr double kLongest = 1e6;
constexpr std::size_t kFields = 6;

struct Heard {
  MappedText text;
  double start, end, confidence;
  std::vector<std::size_t> branches;  // alternations that begin with this word, by index
};

struct Field {
  std::size_t begin = 0, end = 0;
};

std::vector<Field> split_fields(std::string_view s, LineSpan line) {
  std::vector<Field> fields;
  for (std::size_t i = line.begin; i < line.end && fields.size() < kFields;) {
    const auto blank = [&](std::size_t k) { return s[k] == ' ' || s[k] == '\t'; };
    while (i < line.end && blank(i)) ++i;
    const std::size_t begin = i;
    while (i < line.end && !blank(i)) ++i;
    if (i > begin) fields.push_back({begin, i});
  }
  return fields;
}

bool is_noise(std::string_view word) {
  return word == "@" || (word.starts_with('<') && word.ends_with('>')) ||
         (word.starts_with('[') && word.ends_with(']'));
}

class Ctm {
 public:
  explicit Ctm(const Source& source) : source_(source), s_(source.text()) {}

  Result<Transcript> read() {
    for (std::size_t begin = 0; begin < s_.size();) {
      const LineSpan line = line_at(s_, begin);
      begin = line.next;
      const std::string_view content = trim_blanks(s_.substr(line.begin, line.end - line.begin));
      if (content.empty() || content.starts_with(";;") || content.starts_with('#')) continue;
      if (auto error = read_line(line)) return *error;
    }
    if (in_alternation_) return source_.expected(s_.size(), "<ALT_END>, found the end of the file");
    if (one_channel_) {
      mend();
    } else {
      std::stable_sort(heard_.begin(), heard_.end(),
                       [](const Heard& a, const Heard& b) { return a.start < b.start; });
    }
    Builder builder(source_);
    std::vector<std::pair<std::size_t, std::size_t>> alternatives;  // first word, alternation
    for (const Heard& h : heard_) {
      for (const std::size_t b : h.branches) alternatives.emplace_back(builder.word_count(), b);
      builder.word_in_flow(h.text, h.start, h.end, h.confidence, {});
    }
    for (const auto& [first, b] : alternatives) {
      const auto words = builder.words_from(std::min(first, builder.word_count()));
      attach_alternative({branches_[b].text, branches_[b].confidence},
                         words.first(std::min(words.size(), branches_[b].words)));
    }
    return builder.finish(Format::kCtm);
  }

 private:
  struct Branch {
    std::string text;
    double confidence = 0;
    std::size_t words = 0;  // heard words that it stands beside
  };

  std::optional<Error> read_line(LineSpan line) {
    const std::vector<Field> f = split_fields(s_, line);
    const auto field = [&](std::size_t i) { return s_.substr(f[i].begin, f[i].end - f[i].begin); };
    if (f.size() < 5)
      return source_.expected(line.begin, "file, channel, start, duration and word");
    if (file_.empty()) file_ = field(0);
    if (field(0) != file_) {
      return source_.expected(line.begin, "words of one recording, " +
                                              std::string(file_.substr(0, 60)) + "; found " +
                                              std::string(field(0).substr(0, 60)));
    }
    if (channel_.empty()) channel_ = field(1);
    if (field(1) != channel_) one_channel_ = false;
    if (field(4) == "<ALT_BEGIN>") return begin_alternation(line);
    if (field(4) == "<ALT>" || field(4) == "<ALT_END>")
      return next_branch(line, field(4) == "<ALT_END>");

    const auto start = parse_decimal(field(2)), length = parse_decimal(field(3));
    if (!start || !length || *start > kLongest || *length > kLongest) {
      return source_.expected(
          line.begin,
          "start and duration in seconds, found " +
              std::string(s_.substr(f[2].begin, std::min<std::size_t>(f[3].end - f[2].begin, 60))));
    }
    if (is_noise(field(4))) return std::nullopt;
    double confidence = 1;
    if (f.size() > 5) confidence = std::clamp(parse_decimal(field(5)).value_or(1), 0.0, 1.0);
    if (in_alternation_ && branch_ > 0) {
      Branch& b = branches_.back();
      b.text += (b.text.empty() ? "" : " ") + std::string(field(4));
      b.confidence = b.words++ == 0 ? confidence : std::min(b.confidence, confidence);
      return std::nullopt;
    }
    if (one_channel_ && *start < last_ - kBackwards) {
      return source_.expected(
          line.begin, "a start not before " + show_clock(last_) + ", found " + show_clock(*start));
    }
    last_ = std::max(last_, *start);
    Heard h{{}, *start, *start + *length, confidence, {}};
    h.text.append_verbatim(s_, f[4].begin, f[4].end);
    heard_.push_back(std::move(h));
    return std::nullopt;
  }

  std::optional<Error> begin_alternation(LineSpan line) {
    if (in_alternation_)
      return source_.expected(line.begin, "<ALT> or <ALT_END>, found <ALT_BEGIN>");
    in_alternation_ = true;
    branch_ = 0;
    first_ = heard_.size();
    first_branch_ = branches_.size();
    return std::nullopt;
  }

  std::optional<Error> next_branch(LineSpan line, bool last) {
    if (!in_alternation_)
      return source_.expected(line.begin, "<ALT_BEGIN> before <ALT> and <ALT_END>");
    ++branch_;
    if (!last) {
      branches_.emplace_back();
      return std::nullopt;
    }
    in_alternation_ = false;
    for (std::size_t b = first_branch_; b < branches_.size() && first_ < heard_.size(); ++b) {
      branches_[b].words = heard_.size() - first_;
      heard_[first_].branches.push_back(b);
    }
    return std::nullopt;
  }

  void mend() {
    std::vector<WordTime> times;
    for (const Heard& h : heard_) times.push_back({h.start, h.end});
    mend_clock(times);
    for (std::size_t i = 0; i < times.size(); ++i) {
      heard_[i].start = times[i].start;
      heard_[i].end = times[i].mended ? Builder::kOpen : times[i].end;
    }
  }

  const Source& source_;
  std::string_view s_, file_, channel_;
  std::vector<Heard> heard_;
  std::vector<Branch> branches_;
  bool one_channel_ = true, in_alternation_ = false;
  std::size_t branch_ = 0, first_ = 0, first_branch_ = 0;
  double last_ = 0;
};

}  // namespace

Result<Transcript> read_ctm(const Source& source) { return Ctm(source).read(); }

}  // namespace plyscribe::transcript
