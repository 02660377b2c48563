// Words: a lattice that keeps its promises, and a lesson that is legal and always the same.
#include <array>
#include <cmath>
#include <optional>

#include "hearing/lattice.h"
#include "lesson/lesson_json.h"
#include "publish/pgn.h"
#include "resolve/decoder.h"
#include "tests/fuzz/lessons.h"
#include "tests/fuzz/target.h"
#include "transcript/transcript.h"

namespace plyscribe::fuzz {
namespace {

std::optional<transcript::Transcript> spoken(std::string_view words) {
  auto t = transcript::read_transcript("[0:01] " + std::string(words), "t");
  if (t) return *std::move(t);
  expect_line(t.error().message);
  return std::nullopt;
}

std::string text_of(const Result<resolve::Decoding>& decoded, const transcript::Transcript& t) {
  if (!decoded) {
    expect_line(decoded.error().message);
    return decoded.error().message;
  }
  const lesson::Lesson lesson = lesson::build_lesson(*decoded, t);
  expect_sound(lesson);
  expect_reads_back(lesson, publish::write_pgn(lesson));
  return lesson::write_json(lesson);
}

}  // namespace

void lattice(std::string_view bytes) {
  const auto t = spoken(bytes);
  if (!t) return;
  const hearing::Lattice l = hearing::build_lattice(*t);
  for (const hearing::Token& token : l.tokens) {
    expect(token.word < t->words.size(), "a token knows its word");
    expect(!token.norm.empty(), "a token is something");
  }
  expect(l.first_at.size() == l.tokens.size() + 1 && l.first_at.back() == l.readings.size(),
         "every reading is found by its first token");
  for (std::size_t i = 0; i < l.readings.size(); ++i) {
    const hearing::Reading& r = l.readings[i];
    expect(r.first < r.last && r.last <= l.tokens.size(), "a reading covers tokens");
    expect(l.first_at[r.first] <= i && i < l.first_at[r.first + 1], "readings are in order");
    expect(std::isfinite(r.base) && std::isfinite(r.best) && std::isfinite(r.background),
           "costs are numbers");
    expect(r.best < hearing::kNever / 2, "no reading is kept that no move can have");
  }
  std::uint32_t end = 0;
  for (const std::uint32_t i : l.primary) {
    expect(i < l.readings.size() && l.readings[i].first >= end, "primary readings don't overlap");
    end = l.readings[i].last;
  }
}

// The first two bytes choose two words that are pinned as no moves.
void decode(std::string_view bytes) {
  if (bytes.size() < 3) return;
  const auto t = spoken(bytes.substr(2));
  if (!t) return;
  const std::string once = text_of(resolve::decode(*t, {}), *t);
  expect(text_of(resolve::decode(*t, {}), *t) == once, "the same words give the same bytes");

  const auto words = static_cast<std::uint32_t>(t->words.size());
  const std::uint32_t a = static_cast<unsigned char>(bytes[0]) % words;
  const std::uint32_t b = static_cast<unsigned char>(bytes[1]) % words;
  if (a == b) return;
  const auto pin = [](std::uint32_t w) {
    return resolve::Pin{w, w + 1, resolve::Pin::Kind::kNoMove, "", {}};
  };
  const auto with = [](std::vector<resolve::Pin> pins) {
    return resolve::DecodeOptions{.start = "", .side = std::nullopt, .pins = std::move(pins)};
  };
  const std::string both = text_of(resolve::decode(*t, with({pin(a), pin(b)})), *t);
  expect(text_of(resolve::decode(*t, with({pin(b), pin(a)})), *t) == both, "pins commute");
  resolve::Decoder decoder(*t);
  text_of(decoder.decode(with({pin(a)})), *t);
  expect(text_of(decoder.decode(with({pin(a), pin(b)})), *t) == both,
         "one correction after the other comes to the same as both at once");
  expect(text_of(decoder.decode({}), *t) == once, "pins taken back leave no trace");
}

}  // namespace plyscribe::fuzz
