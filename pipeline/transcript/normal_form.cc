// One spelling for marks that have many, character by character; the origins follow.
#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>
#include <unicode/utf8.h>

#include <algorithm>
#include <array>
#include <utility>

#include "transcript/words.h"

namespace plyscribe::transcript {
namespace {

constexpr int kMaxMarks = 64;  // on one letter; sorting more would take quadratic time

UChar32 next_character(const std::string& s, std::size_t& i) {
  UChar32 c = 0;
  U8_NEXT_OR_FFFD(reinterpret_cast<const std::uint8_t*>(s.data()), i, s.size(), c);
  return c;
}

constexpr UChar32 kFirstMark = 0x300;  // below it every character is composed and starts anew

// Composes what is decomposed, one stretch between composition boundaries after the other. A
// stretch that changes has one origin.
void compose(MappedText& t) {
  UErrorCode status = U_ZERO_ERROR;
  const icu::Normalizer2* nfc = icu::Normalizer2::getNFCInstance(status);
  if (U_FAILURE(status)) return;
  const auto starts_anew = [&](UChar32 c) { return c < kFirstMark || nfc->hasBoundaryBefore(c); };
  MappedText out;
  std::size_t kept = 0;  // [kept, i) is unchanged so far
  const auto keep_to = [&](std::size_t i) {
    out.text.append(t.text, kept, i - kept);
    out.from.insert(out.from.end(), t.from.begin() + static_cast<std::ptrdiff_t>(kept),
                    t.from.begin() + static_cast<std::ptrdiff_t>(i));
  };
  for (std::size_t i = 0; i < t.text.size();) {
    const std::size_t first = i;
    const UChar32 c = next_character(t.text, i);
    int marks = 0;
    for (std::size_t next = i; next < t.text.size() && marks < kMaxMarks; i = next, ++marks) {
      if (starts_anew(next_character(t.text, next))) break;
    }
    if (marks == 0 && (c < kFirstMark || nfc->isInert(c))) continue;
    const std::string_view piece = std::string_view(t.text).substr(first, i - first);
    std::string composed;
    status = U_ZERO_ERROR;
    nfc->normalize(icu::UnicodeString::fromUTF8(
                       icu::StringPiece(piece.data(), static_cast<std::int32_t>(piece.size()))),
                   status)
        .toUTF8String(composed);
    if (composed == piece) continue;
    keep_to(first);
    out.append(composed, t.origin(first, i));
    kept = i;
  }
  if (kept == 0) return;
  keep_to(t.text.size());
  t = std::move(out);
}

bool is_blank_at(const std::string& s, std::size_t i) {
  if (i >= s.size()) return true;
  return u_isUWhiteSpace(next_character(s, i));
}

bool is_format_mark(UChar32 c) {
  return c == 0x00AD || c == 0x200B || c == 0x200E || c == 0x200F || (c >= 0x202A && c <= 0x202E) ||
         c == 0x2060 || (c >= 0x2066 && c <= 0x2069) || c == 0xFE0E || c == 0xFE0F || c == 0xFEFF;
}

// A reference such as "&#27;" brings in what no reader lets through as a byte, and what a terminal
// would obey.
bool is_control(UChar32 c) {
  return (c < 0x20 && !(c >= '\t' && c <= '\r')) || (c >= 0x7F && c < 0xA0 && c != 0x85);
}

// The plain spelling of c, or nullptr where c stays as it is. The dash of "e2–e4" is a hyphen, the
// dash between blanks is a dash.
const char* plain_spelling(UChar32 c, bool between_letters) {
  static constexpr std::array<const char*, 12> kFigurines = {"K", "Q", "R", "B", "N", "",
                                                             "K", "Q", "R", "B", "N", ""};
  if (c >= 0x2654 && c <= 0x265F) return kFigurines[static_cast<std::size_t>(c - 0x2654)];
  if (is_format_mark(c)) return "";
  if (is_control(c)) return "\xEF\xBF\xBD";
  if (u_isUWhiteSpace(c)) return " ";
  switch (c) {
    case 0x2018:
    case 0x2019:
    case 0x201A:
    case 0x201B:
    case 0x2032:
    case 0x02BC:
    case 0x00B4:
    case 0xFF07:
      return "'";
    case 0x201C:
    case 0x201D:
    case 0x201E:
    case 0x201F:
    case 0x2033:
    case 0x00AB:
    case 0x00BB:
    case 0xFF02:
      return "\"";
    case 0x2010:
    case 0x2011:
    case 0x2212:
    case 0xFE63:
    case 0xFF0D:
      return "-";
    case 0x2012:
    case 0x2013:
      return between_letters ? "-" : "\xE2\x80\x94";
    case 0x2015:
      return "\xE2\x80\x94";
    case 0x2026:
      return "...";
    case 0x00D7:
      return "x";
    default:
      return nullptr;
  }
}

}  // namespace

MappedText normal_form(MappedText t) {
  const auto odd = [](char c) {
    return static_cast<unsigned char>(c) >= 0x80 || is_control(static_cast<unsigned char>(c));
  };
  if (std::none_of(t.text.begin(), t.text.end(), odd)) return t;
  compose(t);
  MappedText out;
  for (std::size_t i = 0; i < t.text.size();) {
    const std::size_t first = i;
    const UChar32 c = next_character(t.text, i);
    const bool between_letters =
        first > 0 && !out.text.empty() && out.text.back() != ' ' && !is_blank_at(t.text, i);
    const char* plain =
        c < 0x80 && !is_control(c) ? nullptr : plain_spelling(c, between_letters);
    if (plain != nullptr) {
      out.append(plain, t.origin(first, i));
    } else {
      for (std::size_t k = first; k < i; ++k) out.append({&t.text[k], 1}, t.from[k]);
    }
  }
  return out;
}

}  // namespace plyscribe::transcript
