#include "publish/captions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "lesson/status.h"
#include "publish/naming.h"
#include "transcript/words.h"

namespace plyscribe::publish {
namespace {

using lesson::Lesson;
using transcript::Format;

// The bytes from a word's first to a word's last.
struct Bytes {
  std::size_t begin = 0, end = 0;
};

// Words that name one move, or several with one phrase.
struct Named {
  std::uint32_t first = 0, last = 0;
  std::vector<std::string> moves;  // SAN
  bool written = true;             // else it stays as it was heard
  bool bare_capture = false;
};

// "going to f3", of a move that is in the tree already: the place, it may be, and not the move.
bool may_be_a_square(const lesson::Mention& m) {
  const bool square = m.span.heard.size() == 2 && m.span.heard[0] >= 'a' &&
                      m.span.heard[0] <= 'h' && m.span.heard[1] >= '1' && m.span.heard[1] <= '8';
  return m.revisit && square && m.said.substr(0, 2) != m.span.heard;
}

std::vector<Named> named_moves(const Lesson& lesson, const transcript::Transcript& transcript) {
  std::vector<Named> all;
  const auto add = [&](const lesson::Span& span, bool sure, const std::string& san) {
    if (span.last_word <= span.first_word) return;
    const bool written = (sure && names_only(span.heard)) || spells(span.heard, san);
    all.push_back({span.first_word, span.last_word, {san}, written, bare_capture(span.heard)});
  };
  for (const lesson::Node& n : lesson.nodes) {
    for (const lesson::Mention& m : n.mentions) {
      add(m.span, m.confidence >= lesson::kSureFrom && !may_be_a_square(m), m.said);
    }
  }
  for (const lesson::Idea& i : lesson.ideas) {
    if (i.is_move && !i.settled) add(i.span, false, i.text);
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Named& a, const Named& b) { return a.first < b.first; });
  std::vector<Named> apart;
  for (Named& n : all) {
    if (!apart.empty() && n.first < apart.back().last) {
      Named& before = apart.back();
      before.last = std::max(before.last, n.last);
      before.moves.push_back(n.moves.front());
      before.written = before.written && n.written;
    } else {
      apart.push_back(std::move(n));
    }
  }
  // "White takes" has its subject outside.
  for (std::size_t i = 0; i < apart.size(); ++i) {
    Named& n = apart[i];
    if (!n.bare_capture || n.first == 0) continue;
    const transcript::Word& before = transcript.words[n.first - 1];
    const bool follows = i > 0 && apart[i - 1].last == n.first && apart[i - 1].written;
    if (before.trail.empty() && !follows) n.written = false;
  }
  std::erase_if(apart, [](const Named& n) { return !n.written; });
  return apart;
}

// How the file writes text. Windows-1252 is told from UTF-8 by bytes that are no UTF-8.
enum class Encoding : std::uint8_t { kUtf8, kUtf16Le, kUtf16Be, kWindows1252 };

bool is_utf8(std::string_view bytes) {
  for (std::size_t i = 0; i < bytes.size();) {
    const auto lead = static_cast<unsigned char>(bytes[i]);
    const std::size_t length = lead < 0x80       ? 1
                               : lead >> 5 == 6  ? 2
                               : lead >> 4 == 14 ? 3
                               : lead >> 3 == 30 ? 4
                                                 : 0;
    if (length == 0 || i + length > bytes.size()) return false;
    for (std::size_t k = 1; k < length; ++k) {
      if ((static_cast<unsigned char>(bytes[i + k]) & 0xC0) != 0x80) return false;
    }
    i += length;
  }
  return true;
}

Encoding encoding_of(const Original& original) {
  for (const transcript::Word& w : original.transcript.words) {
    if (w.length < 2 || w.length % 2 != 0 || w.offset + w.length > original.bytes.size()) continue;
    const std::string_view bytes = original.bytes.substr(w.offset, w.length);
    if (bytes[1] == '\0' && bytes[0] != '\0') return Encoding::kUtf16Le;
    if (bytes[0] == '\0' && bytes[1] != '\0') return Encoding::kUtf16Be;
  }
  return is_utf8(original.bytes) ? Encoding::kUtf8 : Encoding::kWindows1252;
}

// Code points here are ASCII or chess symbols, both below U+10000.
std::string encode(std::string_view utf8, Encoding encoding) {
  if (encoding == Encoding::kUtf8 || encoding == Encoding::kWindows1252) return std::string(utf8);
  std::string out;
  for (std::size_t i = 0; i < utf8.size();) {
    const auto byte = [&](std::size_t k) {
      return static_cast<unsigned>(static_cast<unsigned char>(utf8[k]));
    };
    unsigned point = byte(i);
    std::size_t length = 1;
    if (point >= 0xE0) {
      point = (point & 0xF) << 12 | (byte(i + 1) & 0x3F) << 6 | (byte(i + 2) & 0x3F);
      length = 3;
    }
    i += length;
    const char high = static_cast<char>(point >> 8), low = static_cast<char>(point & 0xFF);
    out += encoding == Encoding::kUtf16Le ? low : high;
    out += encoding == Encoding::kUtf16Le ? high : low;
  }
  return out;
}

class Writer {
 public:
  Writer(const Original& original, const Notation& notation)
      : words_(original.transcript.words),
        format_(original.transcript.format),
        source_(original.bytes),
        encoding_(encoding_of(original)),
        notation_(notation) {}

  // Calls come in the order of the words.
  void write(const Named& named) {
    std::string text;
    for (const std::string& san : named.moves) {
      if (!text.empty()) text += ' ';
      text += write_move(san, notation_);
    }
    const std::vector<Bytes> runs = runs_of(named);
    for (std::size_t i = 0; i < runs.size(); ++i) {
      const bool here = i + 1 == runs.size() || alone_on_line(runs[i]);
      replace(runs[i], here ? text : std::string(format_ == Format::kCtm ? "@" : ""));
    }
  }

  std::string finish() {
    out_ += source_.substr(done_);
    return std::move(out_);
  }

  bool holds_figurines() const { return encoding_ != Encoding::kWindows1252; }

 private:
  // Stretches of the file without line ends or markup between the words.
  std::vector<Bytes> runs_of(const Named& named) const {
    std::vector<Bytes> runs;
    for (std::uint32_t w = named.first; w < named.last; ++w) {
      const transcript::Word& word = words_[w];
      const Bytes bytes{word.offset, word.offset + word.length};
      // Words that came from no place of their own, or not in the file's order, stay as they are.
      if (word.length == 0 || bytes.begin < (runs.empty() ? done_ : runs.back().end)) continue;
      const bool goes_on = !runs.empty() && w > named.first &&
                           words_[w - 1].caption == word.caption &&
                           plain(runs.back().end, bytes.begin);
      if (goes_on) {
        runs.back().end = bytes.end;
      } else if (!runs.empty() && w > named.first &&
                 transcript::ends_sentence(words_[w - 1].trail)) {
        break;  // "bishop takes h7!", and on the next line "Check, and ..."
      } else {
        runs.push_back(bytes);
      }
    }
    return runs;
  }

  bool plain(std::size_t begin, std::size_t end) const {
    const std::string_view between = source_.substr(begin, end - begin);
    return between.find_first_of("\r\n<>{}[]\"\\&") == std::string_view::npos;
  }

  bool alone_on_line(Bytes run) const {
    const auto ends_line = [&](std::size_t i) { return source_[i] == '\n' || source_[i] == '\r'; };
    const auto is_blank = [&](std::size_t i) {
      return source_[i] == ' ' || source_[i] == '\t' || source_[i] == '\0';
    };
    std::size_t begin = run.begin, end = run.end;
    while (begin > 0 && is_blank(begin - 1)) --begin;
    while (end < source_.size() && is_blank(end)) ++end;
    return (begin == 0 || ends_line(begin - 1)) && (end == source_.size() || ends_line(end));
  }

  void replace(Bytes run, const std::string& text) {
    out_ += source_.substr(done_, run.begin - done_);
    out_ += encode(text, encoding_);
    done_ = run.end;
  }

  const std::vector<transcript::Word>& words_;
  const Format format_;
  const std::string_view source_;
  const Encoding encoding_;
  const Notation& notation_;
  std::string out_;
  std::size_t done_ = 0;  // bytes of the source that are written
};

// Are these the words that the lesson was made from?
std::optional<Error> mismatch(const lesson::Span& span, const transcript::Transcript& transcript) {
  if (span.last_word <= span.first_word || span.heard.find("\xEF\xBF\xBD") != std::string::npos) {
    return std::nullopt;
  }
  std::string words;
  for (std::uint32_t i = span.first_word; i < span.last_word && i < transcript.words.size(); ++i) {
    if (i > span.first_word) words += ' ';
    words += transcript.words[i].text;
  }
  if (words == span.heard) return std::nullopt;
  return Error{
      fmt::format("--transcript: expected the transcript that the lesson was made from: '{}' at "
                  "word {}, found '{}'",
                  span.heard, span.first_word, words)};
}

}  // namespace

Result<std::string> write_captions(const Lesson& lesson, const Original& original,
                                   const Notation& notation) {
  for (const lesson::Node& n : lesson.nodes) {
    for (const lesson::Mention& m : n.mentions) {
      if (auto error = mismatch(m.span, original.transcript)) return *error;
    }
  }
  for (const lesson::Idea& i : lesson.ideas) {
    if (auto error = mismatch(i.span, original.transcript)) return *error;
  }
  Writer writer(original, notation);
  if (notation.style == NotationStyle::kFigurines && !writer.holds_figurines()) {
    return Error{"--notation figurines: expected a transcript in UTF-8 or UTF-16"};
  }
  for (const Named& named : named_moves(lesson, original.transcript)) writer.write(named);
  return writer.finish();
}

constinit const Kind kCaptionsKind = {
    .name = "captions",
    .files = "captions.srt, .vtt, .ttml, .txt ...",
    .about = "the transcript with the moves in right notation, in its own format",
    .needs_original = true,
    .write = [](const Edition& edition) -> Result<std::vector<Output>> {
      auto captions = write_captions(edition.lesson, *edition.original, edition.notation);
      if (!captions) return captions.error();
      const Format format = edition.original->transcript.format;
      const char* const ending =
          format == Format::kStampedText ? "txt" : transcript::format_name(format);
      return std::vector<Output>{{fmt::format("captions.{}", ending), std::move(*captions)}};
    },
};

}  // namespace plyscribe::publish
