// Reader of plain text and Markdown with time stamps.
//
//   # Title
//   [0:03] Okay, are we running? ...        a stamp opens a caption that runs to the next stamp
//
//   **0:37** - So after c5, White takes [0:41] and ...
//
// Stamps: "[m:ss]" and "[h:mm:ss]" anywhere; "(m:ss)" where a line starts; bare "m:ss" where a
// paragraph starts, alone on a line, or at any line's start in a file whose first stamp is bare. A
// second time in the stamp ("[0:03 - 0:37]") is ignored. Not spoken: headings, front matter,
// fences, rules, list marks, emphasis, link targets, speaker labels ("ANNA:", "**Anna:**", "Speaker
// 1:", ">>").
#include <algorithm>
#include <optional>
#include <utility>

#include "transcript/builder.h"
#include "transcript/clock.h"
#include "transcript/readers.h"
#include "transcript/stamps.h"

namespace plyscribe::transcript {
namespace {

constexpr auto npos = std::string_view::npos;
constexpr double kPause = 0.8;      // silence at a paragraph's end, seconds
constexpr double kBackwards = 1.0;  // stamps may go back by so much: they are rounded

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\f' || c == '\v'; }
std::size_t skip(std::string_view s, std::size_t i, std::string_view of) {
  return std::min(s.find_first_not_of(of, i), s.size());
}

class StampedText {
 public:
  explicit StampedText(const Source& source)
      : source_(source), s_(source.text()), builder_(source) {}

  Result<Transcript> read() {
    for (std::size_t begin = front_matter(); begin < s_.size() && !error_;) {
      const std::size_t end = std::min(s_.find_first_of("\r\n", begin), s_.size());
      line(begin, end);
      begin = end + (s_.substr(end).starts_with("\r\n") ? 2 : 1);
    }
    if (error_) return *error_;
    if (style_ == '\0')
      return source_.expected(0, "a time stamp such as [1:05] before the words, found none");
    flush();
    builder_.title(title_);
    return builder_.finish(Format::kStampedText, kPause);
  }

 private:
  // Skips a block between "---" lines at the top; its title is the lesson's.
  std::size_t front_matter() {
    if (!s_.starts_with("---\n") && !s_.starts_with("---\r\n")) return 0;
    const std::size_t end = s_.find("\n---", 3);
    if (end == npos) return 0;
    const std::string_view block = s_.substr(0, end + 1);
    if (const std::size_t at = block.find("\ntitle:"); at != npos) {
      set_title(at + 7, std::min(s_.find_first_of("\r\n", at + 7), s_.size()));
    }
    return end + 4;
  }

  void set_title(std::size_t begin, std::size_t end) {
    if (!title_.empty()) return;
    MappedText raw;
    raw.append_verbatim(s_, begin, end);
    std::string title = normal_form(raw).text;
    std::erase_if(title, [](char c) { return c == '*' || c == '`'; });
    const std::size_t first = title.find_first_not_of(" \t\"'#"),
                      last = title.find_last_not_of(" \t\"'#");
    if (first != npos) title_ = title.substr(first, last - first + 1);
  }

  void line(std::size_t begin, std::size_t end) {
    std::size_t i = begin;
    while (i < end && is_blank(s_[i])) ++i;
    const bool starts_paragraph = std::exchange(after_blank_line_, i == end);
    const std::string_view text = s_.substr(i, end - i);
    if (text.empty()) return;
    if (text.starts_with("```") || text.starts_with("~~~")) return;
    if (text.size() >= 3 && text.find_first_not_of("-=*_ \t") == npos) {
      after_blank_line_ = true;
      return;  // a rule, or the line under a heading
    }
    if (const std::size_t level = skip(text, 0, "#");
        level > 0 && level < 7 && level < text.size() && is_blank(text[level])) {
      heading(i + level, end);
      after_blank_line_ = true;
      return;
    }
    i = line_start(i, end, starts_paragraph);
    spoken(i, end);
  }

  void heading(std::size_t begin, std::size_t end) {
    const std::size_t i = std::min(s_.find_first_not_of(" \t*_`", begin), end);
    const auto stamp = stamp_at(s_.substr(i, end - i), false);
    if (stamp) return open(*stamp, i);
    set_title(begin, end);
  }

  // List marks, the stamp and the label at a line's start. Returns where the words begin.
  std::size_t line_start(std::size_t i, std::size_t end, bool starts_paragraph) {
    const auto rest = [&](std::size_t from) { return s_.substr(from, end - from); };
    while (i + 1 < end && std::string_view("-*+>").find(s_[i]) != npos && is_blank(s_[i + 1])) {
      i += skip(rest(i), 1, " \t");
      starts_paragraph = true;  // an item of a list
    }
    if (starts_paragraph) {
      if (const auto named = name_and_stamp(rest(i))) {
        open(*named, i);
        return end;
      }
    }
    std::size_t at = i;
    const std::size_t number = skip(rest(i).substr(0, 12), 0, "0123456789");  // "1. [0:03] ..."
    if (number > 0 && rest(i + number).starts_with(". ")) at = i + number + 2;
    at += skip(rest(at), 0, "*_` \t");
    if (const auto stamp = stamp_at(rest(at), false)) {
      const std::size_t after = at + stamp->length;
      const bool alone = skip(rest(after), 0, "*_`:- \t") == end - after;
      const bool stands_out = stamp->style != '-' || stamp->style == style_ || starts_paragraph ||
                              alone || style_ == '\0';
      const bool foreign = style_ != '\0' && stamp->style != '[' && stamp->style != style_;
      if (stands_out && !(foreign && stamp->time < last_)) {
        open(*stamp, at);
        i = after + skip(rest(after), 0, "*_`");
        i += skip(rest(i), 0, ":|- \t");
        while (rest(i).starts_with("\xE2\x80\x93") || rest(i).starts_with("\xE2\x80\x94"))
          i += 3 + skip(rest(i + 3), 0, " \t");
        return i + label_length(rest(i));
      }
    }
    return starts_paragraph ? i + label_length(rest(i)) : i;
  }

  void open(const Stamp& stamp, std::size_t at) {
    if (error_) return;
    if (!stamp.valid) {
      error_ = source_.expected(
          at, "a time such as [1:05] or [1:02:03], found " + std::string(stamp.text));
    } else if (style_ != '\0' && stamp.time < last_ - kBackwards) {
      error_ = source_.expected(
          at, "a time stamp not before " + show_clock(last_) + ", found " + show_clock(stamp.time));
    } else if (style_ != '\0' && stamp.time <= last_) {
      return;  // goes on with the caption that is open
    } else {
      flush(stamp.time);
      if (style_ == '\0') style_ = stamp.style;
      last_ = stamp.time;
      builder_.caption(stamp.time, Builder::kOpen);
    }
  }

  // Words before the first stamp are spoken only if it leaves them time; else they are a title
  // page.
  void flush(double now = 0) {
    const MappedText text = std::exchange(text_, {});
    if (style_ != '\0') return builder_.text(text);
    const auto blanks = std::count_if(text.text.begin(), text.text.end(), is_blank);
    if (now >= 10 && now >= 0.25 * static_cast<double>(blanks + 1) && blanks > 0) {
      builder_.caption(0, Builder::kOpen);
      builder_.text(text);
    } else if (first_line_.begin < first_line_.end) {
      set_title(first_line_.begin, first_line_.end);
    }
  }

  // The words of [begin, end), with the stamps between them.
  void spoken(std::size_t begin, std::size_t end) {
    if (style_ == '\0' && first_line_.begin == first_line_.end) {
      first_line_ = {static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)};
    }
    std::size_t plain = begin;  // [plain, i) is to be copied
    const auto copy_to = [&](std::size_t i) { text_.append_verbatim(s_, plain, i); };
    for (std::size_t i = begin; i < end && !error_; ++i) {
      const char c = s_[i];
      if (c == '[') {
        const std::string_view rest = s_.substr(i, end - i);
        if (const auto stamp = stamp_at(rest, true)) {
          copy_to(i);
          open(*stamp, i);
          plain = i + stamp->length;
          i = plain - 1;
        } else if (const std::size_t text_end = rest.substr(0, kLookAhead).find(']');
                   text_end != npos) {
          // [text](target)
          if (!rest.substr(text_end + 1).starts_with('(')) continue;
          const std::size_t close =
              rest.substr(0, text_end + kLookAhead).find_first_of(") \t", text_end + 2);
          if (close == npos || rest[close] != ')') continue;
          copy_to(i);
          text_.append_verbatim(s_, i + 1, i + text_end);
          plain = i + close + 1;
          i = plain - 1;
        }
      } else if (c == '*' || c == '`' ||
                 (c == '_' &&
                  (i == begin || i + 1 == end || is_blank(s_[i - 1]) || is_blank(s_[i + 1])))) {
        copy_to(i);
        plain = i + 1;
      }
    }
    copy_to(end);
    text_.append("\n", {static_cast<std::uint32_t>(end), static_cast<std::uint32_t>(end)});
  }

  const Source& source_;
  std::string_view s_;
  Builder builder_;
  MappedText text_;  // of the open caption
  std::string title_;
  char style_ = '\0';  // of the first stamp; none seen yet
  double last_ = 0;    // its time
  bool after_blank_line_ = true;
  Range first_line_;  // before any stamp
  std::optional<Error> error_;
};

}  // namespace

Result<Transcript> read_stamped_text(const Source& source) { return StampedText(source).read(); }

}  // namespace plyscribe::transcript
