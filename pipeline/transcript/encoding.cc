// Finds the encoding of a file and converts it, keeping the map back.
#include <unicode/ucnv.h>
#include <unicode/utf16.h>
#include <unicode/utf8.h>

#include <algorithm>
#include <array>
#include <memory>

#include "support/limits.h"
#include "support/shown.h"
#include "transcript/source.h"

namespace plyscribe::transcript {
namespace {

bool starts_with(std::string_view s, std::string_view p) { return s.substr(0, p.size()) == p; }

// UTF-16 text of a Latin script has a NUL in every other byte, always on the same side.
const char* utf16_without_bom(std::string_view bytes) {
  const std::size_t n = std::min<std::size_t>(bytes.size() & ~std::size_t{1}, 4096);
  if (n < 4) return nullptr;
  std::array<std::size_t, 2> nuls{};
  for (std::size_t i = 0; i < n; ++i) nuls[i % 2] += bytes[i] == '\0';
  if (nuls[1] * 10 > n * 3 && nuls[0] == 0) return "UTF-16LE";
  if (nuls[0] * 10 > n * 3 && nuls[1] == 0) return "UTF-16BE";
  return nullptr;
}

struct Utf8Census {
  std::size_t multibyte = 0;  // well-formed characters of two bytes or more
  std::size_t broken = 0;     // ill-formed sequences
};

Utf8Census take_census(std::string_view s) {
  Utf8Census census;
  const auto* p = reinterpret_cast<const std::uint8_t*>(s.data());
  for (std::size_t i = 0; i < s.size();) {
    if (p[i] < 0x80) {
      ++i;
      continue;
    }
    UChar32 c = 0;
    U8_NEXT(p, i, s.size(), c);
    ++(c < 0 ? census.broken : census.multibyte);
  }
  return census;
}

// The first byte of a character that no transcript has: a control other than white space.
std::size_t find_control(std::string_view s) {
  for (std::size_t i = 0; i < s.size(); ++i) {
    const auto c = static_cast<unsigned char>(s[i]);
    if (c < 0x20 && c != '\t' && c != '\n' && c != '\r' && c != '\f' && c != '\v') return i;
    if (c == 0x7F) return i;
    if (c == 0xC2 && i + 1 < s.size()) {  // U+0080..U+009F but NEXT LINE
      const auto d = static_cast<unsigned char>(s[i + 1]);
      if (d >= 0x80 && d < 0xA0 && d != 0x85) return i;
    }
  }
  return std::string_view::npos;
}

void append_utf8(std::string& out, UChar32 c) {
  std::array<char, U8_MAX_LENGTH> buffer{};
  std::size_t n = 0;
  U8_APPEND_UNSAFE(buffer.data(), n, c);
  out.append(buffer.data(), n);
}

}  // namespace

bool Source::convert(const char* encoding) {
  UErrorCode status = U_ZERO_ERROR;
  const std::unique_ptr<UConverter, decltype(&ucnv_close)> converter(ucnv_open(encoding, &status),
                                                                     &ucnv_close);
  if (U_FAILURE(status)) return false;
  const std::string_view in = bytes_.substr(bom_);
  std::vector<UChar> units(in.size() + 2);
  std::vector<std::int32_t> offsets(units.size());
  const char* from = in.data();
  UChar* to = units.data();
  ucnv_toUnicode(converter.get(), &to, units.data() + units.size(), &from, in.data() + in.size(),
                 offsets.data(), true, &status);
  if (U_FAILURE(status)) return false;
  const std::size_t n = static_cast<std::size_t>(to - units.data());
  for (std::size_t i = 0; i < n;) {
    const std::size_t first = i;
    UChar32 c = 0;
    U16_NEXT(units.data(), i, n, c);
    if (U_IS_SURROGATE(c)) c = 0xFFFD;
    append_utf8(owned_, c);
    at_.resize(owned_.size(),
               static_cast<std::uint32_t>(bom_ + static_cast<std::size_t>(offsets[first])));
  }
  at_.push_back(static_cast<std::uint32_t>(bytes_.size()));
  return converted_ = true;
}

void Source::keep_utf8_with_damage() {
  const auto* p = reinterpret_cast<const std::uint8_t*>(bytes_.data());
  for (std::size_t i = bom_; i < bytes_.size();) {
    const std::size_t first = i;
    UChar32 c = 0;
    U8_NEXT_OR_FFFD(p, i, bytes_.size(), c);
    append_utf8(owned_, c);
    at_.resize(owned_.size(), static_cast<std::uint32_t>(first));
  }
  at_.push_back(static_cast<std::uint32_t>(bytes_.size()));
  converted_ = true;
}

Result<Source> Source::decode(std::string_view bytes, std::string_view name) {
  Source s(bytes, name);
  if (bytes.size() > kMostBytes) {
    return s.expected(0, "a transcript of at most " + std::to_string(kMostMegabytes) + " MB");
  }
  const char* utf16 = nullptr;
  if (starts_with(bytes, "\xEF\xBB\xBF")) {
    s.bom_ = 3;
  } else if (starts_with(bytes, "\xFF\xFE") || starts_with(bytes, "\xFE\xFF")) {
    s.bom_ = 2;
    utf16 = bytes[0] == '\xFF' ? "UTF-16LE" : "UTF-16BE";
  } else {
    utf16 = utf16_without_bom(bytes);
  }
  if (utf16 != nullptr) {
    if (!s.convert(utf16)) return s.expected(0, std::string(utf16) + " text");
  } else {
    // One broken byte must not turn a UTF-8 file into mojibake, nor a Latin-1 file with an odd
    // pair that looks like UTF-8 into damage: the majority decides.
    const Utf8Census census = take_census(bytes.substr(s.bom_));
    if (census.broken > 0) {
      if (s.bom_ == 3 || census.multibyte > census.broken) {
        s.keep_utf8_with_damage();
      } else if (!s.convert("windows-1252")) {
        return s.expected(0, "text in UTF-8, UTF-16 or Windows-1252");
      }
    }
  }
  if (const std::size_t bad = find_control(s.text()); bad != std::string_view::npos) {
    constexpr std::string_view kHex = "0123456789ABCDEF";
    const Range r =
        s.in_bytes({static_cast<std::uint32_t>(bad), static_cast<std::uint32_t>(bad + 1)});
    const auto byte = static_cast<unsigned char>(bytes[r.begin]);
    return s.expected(bad,
                      std::string("text, found the byte 0x") + kHex[byte >> 4] + kHex[byte & 15]);
  }
  if (s.text().find_first_not_of(" \t\r\n\f\v") == std::string_view::npos) {
    return s.expected(0, "a transcript, found an empty file");
  }
  return s;
}

Range Source::in_bytes(Range r) const {
  if (r.begin >= r.end) return {};
  if (converted_) return {at_[r.begin], at_[r.end]};
  const auto bom = static_cast<std::uint32_t>(bom_);
  return {r.begin + bom, r.end + bom};
}

std::size_t Source::line(std::size_t offset) const {
  const std::string_view t = text();
  std::size_t lines = 1;
  for (std::size_t i = 0; i < std::min(offset, t.size()); ++i) {
    lines += t[i] == '\n' || (t[i] == '\r' && (i + 1 == t.size() || t[i + 1] != '\n'));
  }
  return lines;
}

Error Source::expected(std::size_t offset, std::string_view what) const {
  std::string message(name_);
  message += ':';
  message += std::to_string(line(offset));
  message += ": expected ";
  message += shown(what, 400);  // what was found may stand in it
  return Error{std::move(message)};
}

}  // namespace plyscribe::transcript
