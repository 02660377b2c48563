// plyscribe extract LESSON: from the transcript of a lesson to its tree of moves.
#include <fmt/format.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include "app/commands.h"
#include "app/files.h"
#include "app/publishing.h"
#include "lesson/lesson.h"
#include "lesson/lesson_json.h"
#include "lesson/pins.h"
#include "publish/outline.h"
#include "publish/pgn.h"
#include "resolve/decode.h"
#include "transcript/transcript.h"

namespace plyscribe::app {
namespace {

struct ExtractOptions {
  std::string lesson, start, side, pins, media, out, format;
  bool json = false, pgn = false, outline = false;
  PublishingOptions publishing;
};

// A lesson and what it was made from.
struct Extracted {
  std::string bytes;
  transcript::Transcript transcript;
  lesson::Lesson lesson;
};

// A decoder's message doesn't know the file; one about an option begins with the option.
std::string located(const std::string& file, const std::string& message) {
  return message.starts_with("--") ? message : fmt::format("{}:1: {}", file, message);
}

// The command line goes before the pins.
Result<resolve::DecodeOptions> decode_options(const ExtractOptions& options,
                                              const transcript::Transcript& transcript) {
  lesson::Pins pins;
  resolve::DecodeOptions decoding;
  if (!options.pins.empty()) {
    const auto bytes = read_file(options.pins);
    if (!bytes) return bytes.error();
    auto read = lesson::read_pins(*bytes, options.pins);
    if (!read) return read.error();
    pins = std::move(*read);
    auto words = lesson::pins_for(pins, transcript, options.pins);
    if (!words) return words.error();
    decoding.pins = std::move(*words);
  }
  decoding.start = options.start.empty() ? pins.start : options.start;
  const std::string& side = options.side.empty() ? pins.side : options.side;
  if (side == "white") decoding.side = board::Color::kWhite;
  if (side == "black") decoding.side = board::Color::kBlack;
  return decoding;
}

Result<Extracted> extract(const ExtractOptions& options) {
  auto bytes = read_file(options.lesson);
  if (!bytes) return bytes.error();
  transcript::ReadOptions reading;
  if (!options.format.empty()) {
    reading.detect = false;
    reading.format = *transcript::parse_format_name(options.format);
  }
  auto transcript = transcript::read_transcript(*bytes, options.lesson, reading);
  if (!transcript) return transcript.error();

  const auto decoding = decode_options(options, *transcript);
  if (!decoding) return decoding.error();
  const auto decoded = resolve::decode(*transcript, *decoding);
  if (!decoded) return Error{located(options.lesson, decoded.error().message)};
  for (const resolve::UnheldPin& pin : decoded->unheld) {
    fmt::print(stderr, "plyscribe: {}:pins[{}]: can't hold: {}\n", options.pins, pin.pin, pin.why);
  }

  lesson::Lesson lesson = lesson::build_lesson(*decoded, *transcript);
  lesson.media = options.media;
  if (lesson.title.empty()) lesson.title = lesson.start.name;
  if (lesson.title.empty() && options.lesson != "-") {
    lesson.title = std::filesystem::path(options.lesson).stem().string();
  }
  return Extracted{std::move(*bytes), std::move(*transcript), std::move(lesson)};
}

// lesson.json and every kind, all made before any is written.
std::optional<Error> write_folder(const ExtractOptions& options, const Extracted& extracted,
                                  const publish::Link& link) {
  const publish::Original original{extracted.transcript, extracted.bytes};
  auto outputs = write_kinds({}, {.lesson = extracted.lesson, .link = link, .original = &original});
  if (!outputs) return outputs.error();
  outputs->push_back({"lesson.json", lesson::write_json(extracted.lesson)});
  if (auto error = write_outputs(options.out, *outputs)) return error;
  fmt::print(stderr, "plyscribe: {}; {} files written to {}\n",
             publish::write_summary(extracted.lesson), outputs->size(), options.out);
  return std::nullopt;
}

Status run(const ExtractOptions& options) {
  const auto link = link_of(options.publishing, options.media);
  if (!link) return complain(link.error().message);
  const auto extracted = extract(options);
  if (!extracted) return complain(extracted.error().message);
  const lesson::Lesson& lesson = extracted->lesson;

  if (!options.out.empty()) {
    if (auto error = write_folder(options, *extracted, *link)) return complain(error->message);
    if (!options.json && !options.pgn && !options.outline) return Status::kDone;
  }
  const bool outline =
      options.outline || (!options.json && !options.pgn && ::isatty(STDOUT_FILENO) == 1);
  const std::string text = options.json ? lesson::write_json(lesson)
                           : outline    ? publish::write_outline(lesson)
                                        : publish::write_pgn(lesson);
  if (auto error = write_standard_output(text)) return complain(error->message);
  return Status::kDone;
}

}  // namespace

void add_extract_command(CLI::App& program, Status& status) {
  auto options = std::make_shared<ExtractOptions>();
  CLI::App* command =
      program.add_subcommand("extract", "Turn the transcript of a lesson into its tree of moves");
  command->add_option("LESSON", options->lesson, "Timed transcript, or - for standard input")
      ->required();
  command
      ->add_option("--start", options->start,
                   "Position in which the lesson begins: an opening's name, moves or FEN")
      ->type_name("NAME|MOVES|FEN");
  command->add_option("--side", options->side, "Whom the lesson is for")
      ->check(CLI::IsMember({"white", "black"}));
  command
      ->add_option("--pins", options->pins, "Corrections made before: moves, start and side (JSON)")
      ->type_name("FILE");
  command->add_option("--media", options->media, "Address of the recording, kept in the output")
      ->type_name("URL");
  command->add_option("--out", options->out, "Folder for lesson.json and all that is published")
      ->type_name("DIR");
  command->add_option("--format", options->format, "Format of the transcript, where detection errs")
      ->type_name("FORMAT")
      ->check([](const std::string& name) {
        const auto format = transcript::parse_format_name(name);
        return format ? std::string() : format.error().message;
      });
  add_publishing_options(*command, options->publishing);
  auto* json = command->add_flag("--json", options->json, "Print the lesson as JSON");
  auto* pgn = command->add_flag("--pgn", options->pgn, "Print the game file, on a terminal too")
                  ->excludes(json);
  command->add_flag("--outline", options->outline, "Print the outline, into a pipe too")
      ->excludes(json)
      ->excludes(pgn);
  command->footer(
      "Without --out, prints an outline on a terminal and the game file (PGN) into a pipe.\n\n"
      "Examples:\n"
      "  plyscribe extract lesson.vtt\n"
      "  plyscribe extract lesson.srt --start \"Catalan\" --side white --out catalan/\n"
      "  plyscribe extract lesson.json --start \"1. e4 e5 2. Nf3 Nc6\" > lesson.pgn");
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace plyscribe::app
