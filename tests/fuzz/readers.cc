// Transcripts: any bytes are a Transcript that keeps its promises, or an error of one line.
#include "tests/fuzz/target.h"
#include "transcript/test_reading.h"

namespace plyscribe::fuzz {
namespace {

void check(std::string_view bytes, const transcript::ReadOptions& options) {
  const auto t = transcript::read_transcript(bytes, "t", options);
  if (!t) return expect_line(t.error().message);
  const std::string fault = find_fault(*t, bytes);
  expect(fault.empty(), fault);
  for (const transcript::Word& w : t->words) {
    for (const char c : w.text) {
      const auto byte = static_cast<unsigned char>(c);
      expect(byte > ' ' && byte != 0x7F, "a word has no blanks and no controls in it");
    }
    for (const transcript::Alternative& a : w.alternatives) {
      expect(a.confidence >= 0 && a.confidence <= 1, "a share is from 0 to 1");
      expect(!a.text.empty(), "an alternative is something");
    }
  }
}

void check_as(transcript::Format format, std::string_view bytes) {
  check(bytes, {.detect = false, .format = format});
}

}  // namespace

void read_text(std::string_view bytes) { check_as(transcript::Format::kStampedText, bytes); }
void read_srt(std::string_view bytes) { check_as(transcript::Format::kSubRip, bytes); }
void read_vtt(std::string_view bytes) { check_as(transcript::Format::kWebVtt, bytes); }
void read_ttml(std::string_view bytes) { check_as(transcript::Format::kTtml, bytes); }
void read_ctm(std::string_view bytes) { check_as(transcript::Format::kCtm, bytes); }
void read_json(std::string_view bytes) { check_as(transcript::Format::kJson, bytes); }
void read_any(std::string_view bytes) { check(bytes, {}); }

}  // namespace plyscribe::fuzz
