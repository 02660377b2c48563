#include "resolve/context.h"

#include <algorithm>
#include <string_view>
#include <unordered_map>

#include "grammar/grammar.h"

namespace plyscribe::resolve {
namespace {

using hearing::Lattice;
using hearing::Reading;
using hearing::Token;

constexpr int kLeftWindow = 9;
constexpr int kRightWindow = 6;
constexpr int kSentenceWindow = 24;
constexpr int kGapWindow = 8;

// One word of a window: a token, a mark, or "<m>" / "<p>".
using Window = std::vector<std::string>;

std::string joined(const Window& w, std::size_t from, std::size_t to) {
  std::string out;
  for (std::size_t i = from; i < to; ++i) {
    if (i > from) out.push_back(' ');
    out += w[i];
  }
  return out;
}

std::string simple_mark(std::string_view mark) {
  for (char c : mark) {
    if (c == '.' || c == '!' || c == '?' || c == ';') return std::string(1, c == ';' ? '.' : c);
    if (c == ':' || c == ',') return std::string(1, c);
  }
  return mark.empty() ? "" : ",";
}

std::string word_class(const Token& t) {
  // Numbers stand for each other, so that "move ten" teaches "move twelve".
  if (!t.norm.empty() && std::all_of(t.norm.begin(), t.norm.end(),
                                     [](char c) { return c >= '0' && c <= '9'; })) {
    return "<n>";
  }
  return t.norm;
}

class Windows {
 public:
  explicit Windows(const Lattice& lattice) : lattice_(lattice) {}

  // Text before r, nearest last; stops at the primary reading before it.
  Window left(const Reading& r) const {
    Window out;
    int words = 0;
    for (std::uint32_t t = r.first; t-- > 0 && words < kLeftWindow; ++words) {
      const Token& token = lattice_.tokens[t];
      const std::string mark = simple_mark(token.mark);
      if (lattice_.tokens[t + 1].opens_paragraph) out.emplace_back("<p>");
      if (!mark.empty()) out.push_back(mark);
      if (lattice_.primary_at[t] >= 0) {
        out.emplace_back("<m>");
        break;
      }
      out.push_back(word_class(token));
    }
    std::reverse(out.begin(), out.end());
    return out;
  }

  Window right(const Reading& r) const {
    Window out;
    const auto n = static_cast<std::uint32_t>(lattice_.tokens.size());
    if (r.last > 0) {
      const std::string mark = simple_mark(lattice_.tokens[r.last - 1].mark);
      if (!mark.empty()) out.push_back(mark);
    }
    int words = 0;
    for (std::uint32_t t = r.last; t < n && words < kRightWindow; ++t, ++words) {
      if (lattice_.tokens[t].opens_paragraph) {
        out.emplace_back("<p>");
        break;
      }
      if (lattice_.primary_at[t] >= 0) {
        out.emplace_back("<m>");
        break;
      }
      out.push_back(word_class(lattice_.tokens[t]));
      const std::string mark = simple_mark(lattice_.tokens[t].mark);
      if (!mark.empty()) out.push_back(mark);
    }
    return out;
  }

  // The last words before r in its sentence, moves among them.
  std::string before(const Reading& r) const {
    std::string out;
    std::uint32_t t = r.first;
    for (int words = 0; t > 0 && words < kGapWindow; --t, ++words) {
      const std::string mark = simple_mark(lattice_.tokens[t - 1].mark);
      if (mark == "." || mark == "!" || mark == "?") break;
    }
    for (; t < r.first; ++t) out += lattice_.tokens[t].norm + " ";
    if (!out.empty()) out.pop_back();
    return out;
  }

  // From the sentence's start to r, every mention as <m>.
  Window sentence(const Reading& r) const {
    Window out;
    int words = 0;
    for (std::uint32_t t = r.first; t-- > 0 && words < kSentenceWindow; ++words) {
      const Token& token = lattice_.tokens[t];
      const std::string mark = simple_mark(token.mark);
      if (mark == "." || mark == "!" || mark == "?") break;
      if (lattice_.tokens[t + 1].opens_paragraph && lattice_.script == hearing::Script::kSpokenWords)
        break;
      if (!mark.empty()) out.push_back(mark);
      if (lattice_.primary_at[t] >= 0) {
        if (out.empty() || out.back() != "<m>") out.emplace_back("<m>");
        continue;
      }
      out.push_back(word_class(token));
    }
    std::reverse(out.begin(), out.end());
    return out;
  }

 private:
  const Lattice& lattice_;
};

SideNamed side_in(const Window& left) {
  for (std::size_t i = left.size(); i-- > 0;) {
    const std::string& w = left[i];
    if (w == "." || w == "?" || w == "!" || w == "<m>") break;
    if (w == "white" || w == "white's") return SideNamed::kWhite;
    if (w == "black" || w == "black's") return SideNamed::kBlack;
    if (w == "we" || w == "i" || w == "our" || w == "my" || w == "you" || w == "we'll" ||
        w == "i'll" || w == "your" || w == "us") {
      return SideNamed::kWe;
    }
    if (w == "he" || w == "they" || w == "she" || w == "his" || w == "their" || w == "he'll" ||
        w == "he's" || w == "they'll" || w == "opponent" || w == "him" || w == "her") {
      return SideNamed::kThey;
    }
  }
  return SideNamed::kNobody;
}

}  // namespace

std::vector<Context> contexts_of(const Lattice& lattice) {
  const grammar::Grammar& grammar = grammar::grammar();
  const Windows windows(lattice);
  std::unordered_map<std::string, std::vector<int>> cue_cache;
  const auto cues = [&](const std::string& text) -> const std::vector<int>& {
    const auto [it, added] = cue_cache.try_emplace(text);
    if (added) it->second = grammar.cues_in(text);
    return it->second;
  };
  std::vector<Context> out(lattice.readings.size());
  for (std::size_t i = 0; i < lattice.readings.size(); ++i) {
    const Reading& r = lattice.readings[i];
    Context& c = out[i];
    const auto add = [&c](std::string s) { c.strings.push_back(std::move(s)); };
    const Window left = windows.left(r);
    const Window right = windows.right(r);
    const Window sentence = windows.sentence(r);
    c.side = side_in(left);

    const std::string& pattern = grammar.patterns()[r.pattern].name;
    add("p=" + pattern);
    const std::string shape = r.castle != 0 ? "castle" : !r.has_to ? (r.takes ? "takes" : "vague")
                              : r.takes ? "takes-on"
                              : pattern == "to" ? "square"
                              : pattern == "from-to" ? "pawn" : "piece";
    const std::string l1 = left.empty() ? "<s>" : left.back();
    const std::string r1 = right.empty() ? "<e>" : right.front();
    add("l1=" + l1);
    add("r1=" + r1);
    add("s=" + shape + "|l1=" + l1);
    add("s=" + shape + "|r1=" + r1);
    if (left.size() >= 2) add("l2=" + joined(left, left.size() - 2, left.size()));
    if (left.size() >= 3) add("l3=" + joined(left, left.size() - 3, left.size()));
    if (right.size() >= 2) add("r2=" + joined(right, 0, 2));
    if (right.size() >= 3) add("r3=" + joined(right, 0, 3));
    if (!left.empty() && left[0] == "<m>" && left.size() <= 5) {
      add("b=" + joined(left, 0, left.size()));
    }
    add("l1r1=" + l1 + "|" + r1);
    for (std::size_t k = 0; k < left.size(); ++k) {
      if (left[k] != "," && left[k] != "<m>") add("lb=" + left[k]);
    }
    for (std::size_t k = 0; k < std::min<std::size_t>(right.size(), 5); ++k) {
      if (right[k] != "," && right[k] != "<m>") add("rb=" + right[k]);
    }
    const std::string left_text = joined(left, 0, left.size());
    const std::string right_text = joined(right, 0, right.size());
    for (int cue : cues(left_text)) {
      const std::string& name = grammar.cue_names()[static_cast<std::size_t>(cue)];
      add("lc=" + name);
      add("s=" + shape + "|lc=" + name);
    }
    for (int cue : cues(right_text)) {
      const std::string& name = grammar.cue_names()[static_cast<std::size_t>(cue)];
      add("rc=" + name);
    }
    for (int cue : cues(windows.before(r))) {
      const std::string& name = grammar.cue_names()[static_cast<std::size_t>(cue)];
      if (name == "gap-off") c.gap = Gap::kOff;
      if (name == "gap-castle" && c.gap == Gap::kNone) c.gap = Gap::kCastle;
      if (name == "gap-moves" && c.gap == Gap::kNone) c.gap = Gap::kMoves;
    }
    const std::string sentence_text = joined(sentence, 0, sentence.size());
    for (int cue : cues(sentence_text)) {
      add("sc=" + grammar.cue_names()[static_cast<std::size_t>(cue)]);
    }
    // The words just before the mention before this, in the same sentence.
    if (!left.empty() && left[0] == "<m>" && sentence.size() > left.size()) {
      const std::size_t cut = sentence.size() - left.size();
      if (cut >= 1) add("pl1=" + sentence[cut - 1]);
      if (cut >= 2) add("pl2=" + joined(sentence, cut - 2, cut));
    }
    if (sentence.size() == left.size() || left.empty()) add("first-in-sentence");
    if (sentence.empty()) add("opens-sentence");
    if (r.first < lattice.tokens.size() && lattice.tokens[r.first].opens_paragraph) {
      add("opens-paragraph");
    }
    std::sort(c.strings.begin(), c.strings.end());
    c.strings.erase(std::unique(c.strings.begin(), c.strings.end()), c.strings.end());
  }
  return out;
}

}  // namespace plyscribe::resolve
