// Reader of TTML captions (W3C, "Timed Text Markup Language", versions 1 and 2).
//
//   <tt xmlns="http://www.w3.org/ns/ttml"><body><div>
//     <p begin="3s" end="5.5s">So after c5,<br/>White takes</p>
//     <p begin="6s"><span begin="0s">and</span> <span begin="0.4s">I</span></p>
//   </div></body></tt>
//
// Each p is a cue; spans with times of their own inside it give time marks. Times count from the
// start of the element around, or in a timeContainer="seq" from the end of the element before.
// Metadata, ruby annotations and animation are left out. White space is not kept, even where
// xml:space asks for it: between words it means nothing. Namespace prefixes are not looked up, only
// local names count.
#include <algorithm>
#include <optional>
#include <pugixml.hpp>

#include "transcript/caption_markup.h"
#include "transcript/cue_timing.h"
#include "transcript/cues.h"
#include "transcript/readers.h"
#include "transcript/ttml_time.h"
#include "transcript/words.h"

namespace plyscribe::transcript {
namespace {

constexpr int kMaxDepth = 200;
constexpr double kNone = -1;  // a time that is not known

std::string_view local(std::string_view name) {
  const std::size_t colon = name.rfind(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

std::string_view attribute(pugi::xml_node node, std::string_view name) {
  for (const pugi::xml_attribute a : node.attributes()) {
    if (local(a.name()) == name) return a.value();
  }
  return {};
}

struct Interval {
  double begin = 0;
  std::optional<double> end;
  bool given = false;  // by attributes here or above, or by a place in a sequence
};

class Ttml {
 public:
  explicit Ttml(const Source& source) : source_(source), s_(source.text()) {}

  Result<Transcript> read() {
    // Character references stay as they are, so that each byte keeps its place.
    const auto parsed = document_.load_buffer(
        s_.data(), s_.size(), pugi::parse_cdata | pugi::parse_ws_pcdata, pugi::encoding_utf8);
    if (!parsed) {
      return source_.expected(static_cast<std::size_t>(std::max<std::ptrdiff_t>(parsed.offset, 0)),
                              std::string("well-formed XML, found: ") + parsed.description());
    }
    const pugi::xml_node root = document_.document_element();
    if (local(root.name()) != "tt")
      return source_.expected(place(root), "TTML with the root <tt>, found <" +
                                               std::string(root.name()).substr(0, 60) + ">");
    const auto clock =
        parse_ttml_clock(attribute(root, "frameRate"), attribute(root, "frameRateMultiplier"),
                         attribute(root, "subFrameRate"), attribute(root, "tickRate"));
    if (!clock) return source_.expected(place(root), "frame and tick rates above 0");
    clock_ = *clock;
    for (const pugi::xml_node child : root.children()) {
      if (local(child.name()) == "head") find_title(child, 0);
      if (local(child.name()) == "body") element(child, {}, 0, false, 0);
    }
    if (error_) return *error_;
    if (cues_.empty()) return source_.expected(place(root), "a <p> with words in it, found none");
    return read_cues(source_, std::move(cues_), Format::kTtml, std::move(title_));
  }

 private:
  std::size_t place(pugi::xml_node node) const {
    return static_cast<std::size_t>(std::max<std::ptrdiff_t>(node.offset_debug(), 0));
  }

  void find_title(pugi::xml_node node, int depth) {
    for (const pugi::xml_node child : node.children()) {
      if (local(child.name()) == "title" && title_.empty()) {
        MappedText text;
        if (child.first_child()) append(child.first_child(), text);
        title_ = std::string(trim_blanks(normal_form(text).text));
      } else if (depth < kMaxDepth) {
        find_title(child, depth + 1);
      }
    }
  }

  void fail(pugi::xml_node node, const std::string& what) {
    if (!error_) error_ = source_.expected(place(node), what);
  }

  std::optional<double> time(pugi::xml_node node, const char* name) {
    const std::string_view text = attribute(node, name);
    if (text.empty()) return std::nullopt;
    const auto value = parse_ttml_time(text, clock_);
    if (!value)
      fail(node, std::string("a time such as 00:01:02.500 or 62.5s as ") + name + ", found " +
                     std::string(text.substr(0, 40)));
    return value;
  }

  // `base`: the time that this element's own times count from.
  Interval interval(pugi::xml_node node, const Interval& around, double base, bool in_sequence) {
    const auto begin = time(node, "begin"), end = time(node, "end"), duration = time(node, "dur");
    Interval own{base + begin.value_or(0), around.end,
                 around.given || in_sequence || begin || end || duration};
    const auto limit = [&](double t) { own.end = own.end ? std::min(*own.end, t) : t; };
    if (end) limit(base + *end);
    if (duration) limit(own.begin + *duration);
    return own;
  }

  // Returns when the element ends, as far as that is known.
  double element(pugi::xml_node node, const Interval& around, double base, bool in_sequence,
                 int depth) {
    if (error_) return base;
    if (depth > kMaxDepth) {
      fail(node, "XML nested less than 200 deep");
      return base;
    }
    const std::string_view name = local(node.name());
    if (name != "body" && name != "div" && name != "p") return base;
    const Interval own = interval(node, around, base, in_sequence);
    const bool sequence = attribute(node, "timeContainer") == "seq";
    double last = own.begin;
    if (name == "p") {
      paragraph(node, own, sequence, depth);
      if (!cues_.empty() && !cues_.back().marks.empty())
        last = std::max(last, cues_.back().marks.back().time);
    } else {
      double next = own.begin;
      for (const pugi::xml_node child : node.children()) {
        const double end = element(child, own, next, sequence, depth + 1);
        last = std::max(last, end);
        if (sequence) next = end;
      }
    }
    return own.end.value_or(last);
  }

  void paragraph(pugi::xml_node node, const Interval& own, bool sequence, int depth) {
    Cue cue;
    cue.at = place(node);
    MappedText line;
    last_end_ = kNone;
    inlines(node, own, sequence, cue, line, depth);
    if (!line.text.empty()) cue.lines.push_back(std::move(line));
    const bool spoken = std::any_of(cue.lines.begin(), cue.lines.end(), [](const MappedText& l) {
      return !trim_blanks(l.text).empty();
    });
    if (!spoken) return;
    if (!own.given && cue.marks.empty())
      return fail(node, "a begin on the <p>, on something around it or on its spans");
    const bool own_begin = cue.marks.empty() || !attribute(node, "begin").empty();
    cue.start = own_begin ? own.begin : cue.marks.front().time;
    cue.end = own.end.value_or(last_end_);
    cues_.push_back(std::move(cue));
  }

  // The text inside a p or span. Text of a timed span starts at the span's begin, text after it at
  // its end.
  double inlines(pugi::xml_node node, const Interval& own, bool sequence, Cue& cue,
                 MappedText& line, int depth) {
    double next = own.begin;
    if (depth > kMaxDepth) {
      fail(node, "XML nested less than 200 deep");
      return next;
    }
    double mark = kNone;  // for the text that comes next
    for (const pugi::xml_node child : node.children()) {
      if (error_) return next;
      if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata) {
        if (mark >= 0 && !trim_blanks(child.value()).empty()) {
          cue.marks.push_back({static_cast<std::uint32_t>(place(child)), mark});
          mark = last_end_ = kNone;
        }
        append(child, line);
      } else if (local(child.name()) == "br") {
        if (!line.text.empty()) cue.lines.push_back(std::exchange(line, {}));
      } else if (local(child.name()) == "span") {
        const std::string_view ruby = attribute(child, "ruby");
        if (ruby == "text" || ruby == "textContainer" || ruby == "delimiter") continue;
        const Interval inner = interval(child, own, sequence ? next : own.begin, sequence);
        const bool timed =
            !attribute(child, "begin").empty() || (sequence && !attribute(child, "dur").empty());
        if (timed) cue.marks.push_back({static_cast<std::uint32_t>(place(child)), inner.begin});
        const double end =
            inlines(child, inner, attribute(child, "timeContainer") == "seq", cue, line, depth + 1);
        if (timed) mark = inner.end.value_or(kNone);
        if (timed) last_end_ = mark;
        if (timed && sequence) next = std::max(end, inner.end.value_or(inner.begin));
      }
    }
    return next;
  }

  void append(pugi::xml_node text, MappedText& out) {
    const std::size_t begin = place(text);
    const std::size_t end = std::min(begin + std::string_view(text.value()).size(), s_.size());
    std::size_t plain = begin;
    for (std::size_t i = begin; text.type() == pugi::node_pcdata && i < end; ++i) {
      if (s_[i] != '&') continue;
      out.append_verbatim(s_, plain, i);
      const std::size_t n = append_reference(s_, i, end, out);
      plain = i + n;
      if (n > 0) i += n - 1;
    }
    out.append_verbatim(s_, plain, end);
  }

  const Source& source_;
  std::string_view s_;
  pugi::xml_document document_;
  TtmlClock clock_;
  std::vector<Cue> cues_;
  std::string title_;
  double last_end_ = kNone;  // of the last timed span in the p
  std::optional<Error> error_;
};

}  // namespace

Result<Transcript> read_ttml(const Source& source) { return Ttml(source).read(); }

}  // namespace plyscribe::transcript
