#include "transcript/transcript.h"

#include "transcript/readers.h"

namespace plyscribe::transcript {
namespace {

struct Reader {
  Format format;
  const char* name;
  Result<Transcript> (*read)(const Source&);
};

constexpr Reader kReaders[] = {
    {Format::kStampedText, "text", read_stamped_text},
    {Format::kSubRip, "srt", read_subrip},
    {Format::kWebVtt, "vtt", read_webvtt},
    {Format::kTtml, "ttml", read_ttml},
    {Format::kCtm, "ctm", read_ctm},
    {Format::kJson, "json", read_json_words},
};

}  // namespace

Result<Transcript> read_transcript(std::string_view bytes, std::string_view name,
                                   const ReadOptions& options) {
  const auto source = Source::decode(bytes, name);
  if (!source) return source.error();
  const Format format = options.detect ? detect_format(*source) : options.format;
  for (const Reader& r : kReaders) {
    if (r.format == format) return r.read(*source);
  }
  return source->expected(0, "a known format");
}

const char* format_name(Format f) {
  for (const Reader& r : kReaders) {
    if (r.format == f) return r.name;
  }
  return "?";
}

std::vector<std::string> format_names() {
  std::vector<std::string> names;
  for (const Reader& r : kReaders) names.emplace_back(r.name);
  return names;
}

Result<Format> parse_format_name(std::string_view name) {
  std::string known;
  for (const Reader& r : kReaders) {
    if (r.name == name) return r.format;
    known += known.empty() ? "" : ", ";
    known += r.name;
  }
  return Error{"expected a format, one of " + known + "; found " + std::string(name)};
}

}  // namespace plyscribe::transcript
