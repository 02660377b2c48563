#include "app/lesson_input.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <utility>

#include "app/command_help.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/messages.h"
#include "lesson/pins.h"

namespace plyscribe::app {

void add_lesson_options(CLI::App& command, LessonOptions& options) {
  command.add_option("LESSON", options.lesson, "Timed transcript, or - for standard input")
      ->required();
  command
      .add_option("--start", options.start,
                  "Position in which the lesson begins: an opening's name, moves or FEN")
      ->type_name("NAME|MOVES|FEN");
  takes_one_of(*command.add_option("--side", options.side, "Whom the lesson is for"),
               {"white", "black"});
  command
      .add_option("--pins", options.pins, "Corrections made before: moves, start and side (JSON)")
      ->type_name("FILE");
  takes_one_of(*command.add_option("--format", options.format,
                                   "Format of the transcript, where detection errs"),
               transcript::format_names());
  add_quiet_option(command, options.quiet);
}

Result<LessonInput> read_lesson(const LessonOptions& options) {
  auto bytes = read_file(options.lesson);
  if (!bytes) return bytes.error();
  transcript::ReadOptions reading;
  if (!options.format.empty()) {
    reading.detect = false;
    reading.format = *transcript::parse_format_name(options.format);
  }
  auto transcript = transcript::read_transcript(*bytes, options.lesson, reading);
  if (!transcript) return transcript.error();

  LessonInput out{std::move(*bytes), std::move(*transcript), {}};
  lesson::Pins pins;
  if (!options.pins.empty()) {
    const auto text = read_file(options.pins);
    if (!text) return text.error();
    auto read = lesson::read_pins(*text, options.pins);
    if (!read) return read.error();
    pins = std::move(*read);
    auto words = lesson::pins_for(pins, out.transcript, options.pins);
    if (!words) return words.error();
    out.decoding.pins = std::move(*words);
  }
  out.decoding.start = options.start.empty() ? pins.start : options.start;
  const std::string& side = options.side.empty() ? pins.side : options.side;
  if (side == "white") out.decoding.side = board::Color::kWhite;
  if (side == "black") out.decoding.side = board::Color::kBlack;
  return out;
}

std::string work_on(const std::string& lesson) {
  return lesson == "-" ? "reading" : "reading " + std::filesystem::path(lesson).filename().string();
}

Error located(const LessonOptions& options, const Error& error) {
  if (error.message.starts_with("--")) return error;
  return Error{
      fmt::format("{}:1: {}; is it a chess lesson in English? Tell where it begins by --start",
                  options.lesson, error.message)};
}

void say_unheld(const LessonOptions& options, const resolve::Decoding& decoding) {
  for (const resolve::UnheldPin& pin : decoding.unheld) {
    say(fmt::format("{}:pins[{}]: can't hold: {}", options.pins, pin.pin, pin.why));
  }
}

}  // namespace plyscribe::app
