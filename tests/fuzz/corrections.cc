// Pins in a file: read as they stand or refused; written, they read back.
#include "lesson/pins.h"

#include "tests/fuzz/target.h"

namespace plyscribe::fuzz {

void pins(std::string_view bytes) {
  const auto read = lesson::read_pins(bytes, "p");
  if (!read) return expect_line(read.error().message);
  const std::string text = lesson::write_pins(*read);
  const auto again = lesson::read_pins(text, "p");
  expect(static_cast<bool>(again), again ? "" : again.error().message);
  expect(lesson::write_pins(*again) == text, "pins read back the same");
  expect(again->words.size() == read->words.size(), "no pin is lost");
  for (std::size_t i = 0; i < read->words.size(); ++i) {
    expect(again->words[i].pin == read->words[i].pin, "every pin is what it was");
  }
  static const auto t = transcript::read_transcript("[0:01] e4 e5 Nf3 takes it, see for", "t");
  const auto fitting = lesson::pins_for(*read, *t, "p");
  if (!fitting) return expect_line(fitting.error().message);
  for (const resolve::Pin& pin : *fitting) {
    expect(pin.first_word < pin.last_word && pin.last_word <= t->words.size(),
           "a pin that fits is on words");
  }
}

}  // namespace plyscribe::fuzz
