// Text cut out of a source, with each byte's origin.
//
//   MappedText t;
//   t.append("&", {10, 15});   // the five bytes "&amp;" at 10 of the source gave one character
//   t.origin(0, 1);            // {10, 15}
//
// Readers strip markup and undo escapes while they append; what comes after (normalising,
// splitting) keeps the map. Invariant: from.size() == text.size(); the bytes of one character share
// one Range.
#ifndef PLYSCRIBE_TRANSCRIPT_MAPPED_TEXT_H_
#define PLYSCRIBE_TRANSCRIPT_MAPPED_TEXT_H_

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace plyscribe::transcript {

struct Range {
  std::uint32_t begin = 0;
  std::uint32_t end = 0;
};

struct MappedText {
  std::string text;
  std::vector<Range> from;

  void append(std::string_view bytes, Range origin) {
    text.append(bytes);
    from.insert(from.end(), bytes.size(), origin);
  }

  // Bytes [begin, end) of `source`, unchanged.
  void append_verbatim(std::string_view source, std::size_t begin, std::size_t end) {
    if (begin >= end) return;
    text.append(source.substr(begin, end - begin));
    from.reserve(text.size() > from.capacity() ? text.size() * 2 : 0);
    for (std::size_t i = begin; i < end;) {
      std::size_t next = i + 1;
      while (next < end && (static_cast<unsigned char>(source[next]) & 0xC0) == 0x80) ++next;
      const Range origin{static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(next)};
      for (; i < next; ++i) from.push_back(origin);
    }
  }

  // Where [begin, end) of text came from. Empty ranges have no origin.
  Range origin(std::size_t begin, std::size_t end) const {
    if (begin >= end) return {};
    return {from[begin].begin, from[end - 1].end};
  }
};

}  // namespace plyscribe::transcript

#endif  // PLYSCRIBE_TRANSCRIPT_MAPPED_TEXT_H_
