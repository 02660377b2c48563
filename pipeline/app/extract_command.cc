// plyscribe extract LESSON: from the transcript of a lesson to its tree of moves.
#include <fmt/format.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cctype>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "app/commands.h"
#include "app/files.h"
#include "app/lesson_input.h"
#include "app/messages.h"
#include "app/progress.h"
#include "app/publishing.h"
#include "app/terminal.h"
#include "lesson/lesson.h"
#include "lesson/lesson_json.h"
#include "publish/outline.h"
#include "publish/pgn.h"
#include "resolve/decode.h"
#include "transcript/transcript.h"

namespace plyscribe::app {
namespace {

struct ExtractOptions {
  LessonOptions input;
  std::string media, out;
  bool json = false, pgn = false, outline = false;
  PublishingOptions publishing;
};

// As a shell takes it.
std::string quoted(const std::string& path) {
  const bool plain = std::all_of(path.begin(), path.end(), [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 ||
           std::string_view("/._-+,@%:").find(c) != std::string_view::npos;
  });
  if (plain) return path;
  std::string out = "'";
  for (const char c : path) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

// A lesson and what it was made from.
struct Extracted {
  std::string bytes;
  transcript::Transcript transcript;
  lesson::Lesson lesson;
};

Result<Extracted> extract(const ExtractOptions& options) {
  auto input = read_lesson(options.input);
  if (!input) return input.error();
  Progress progress(work_on(options.input.lesson), options.input.quiet);
  (*input).decoding.progress = progress.reporter();
  const auto decoded = resolve::decode(input->transcript, input->decoding);
  progress.done();
  if (!decoded) return located(options.input, decoded.error());
  say_unheld(options.input, *decoded);

  lesson::Lesson lesson = lesson::build_lesson(*decoded, input->transcript);
  lesson.media = options.media;
  if (lesson.title.empty()) lesson.title = lesson.start.name;
  if (lesson.title.empty() && options.input.lesson != "-") {
    lesson.title = one_line(std::filesystem::path(options.input.lesson).stem().string());
  }
  return Extracted{std::move(input->bytes), std::move(input->transcript), std::move(lesson)};
}

// lesson.json and every kind, all made before any is written.
std::optional<Error> write_folder(const ExtractOptions& options, const Extracted& extracted,
                                  const publish::Link& link) {
  const publish::Original original{extracted.transcript, extracted.bytes};
  auto outputs = write_kinds({}, {.lesson = extracted.lesson,
                                  .link = link,
                                  .notation = notation_of(options.publishing),
                                  .original = &original});
  if (!outputs) return outputs.error();
  outputs->push_back({"lesson.json", lesson::write_json(extracted.lesson)});
  if (auto error = write_outputs(options.out, *outputs)) return error;
  if (!options.input.quiet) {
    say(fmt::format("{}; {} files written to {}", publish::write_summary(extracted.lesson),
                    outputs->size(), options.out));
  }
  return std::nullopt;
}

// What one does with the lesson that has just been shown.
void say_next(const ExtractOptions& options, const lesson::Lesson& lesson) {
  if (options.input.quiet || options.input.lesson == "-") return;
  const std::string name = quoted(options.input.lesson);
  const bool check =
      !lesson.loose.empty() ||
      std::any_of(lesson.nodes.begin(), lesson.nodes.end(),
                  [](const lesson::Node& node) { return node.status == lesson::Status::kUnsure; });
  if (check) fmt::print(stderr, "\nto check it:    plyscribe review {}\n", name);
  if (options.out.empty()) {
    fmt::print(stderr, "{}to publish it:  plyscribe extract {} --out DIR\n", check ? "" : "\n",
               name);
  }
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
  const Terminal terminal = terminal_at(STDOUT_FILENO);
  const bool outline = options.outline || (!options.json && !options.pgn && terminal.is_one);
  const std::string text = options.json ? lesson::write_json(lesson)
                           : outline ? publish::write_outline(lesson, {.columns = terminal.columns,
                                                                       .colour = terminal.colour,
                                                                       .utf8 = terminal.utf8})
                                     : publish::write_pgn(lesson, {.link = *link});
  if (auto error = write_standard_output(text)) return complain(error->message);
  if (outline && terminal.is_one) say_next(options, lesson);
  return Status::kDone;
}

}  // namespace

void add_extract_command(CLI::App& program, Status& status) {
  auto options = std::make_shared<ExtractOptions>();
  CLI::App* command =
      program.add_subcommand("extract", "Turn the transcript of a lesson into its tree of moves");
  add_lesson_options(*command, options->input);
  command->add_option("--media", options->media, "Address of the recording, kept in the output")
      ->type_name("URL");
  command->add_option("--out", options->out, "Folder for lesson.json and all that is published")
      ->type_name("DIR");
  add_publishing_options(*command, options->publishing);
  auto* json = command->add_flag("--json", options->json, "Print the lesson as JSON");
  auto* pgn =
      command->add_flag("--pgn", options->pgn, "Print the game file (PGN), on a terminal too")
          ->excludes(json);
  command->add_flag("--outline", options->outline, "Print the outline, into a pipe too")
      ->excludes(json)
      ->excludes(pgn);
  command->footer(
      "Without --out, prints an outline on a terminal, in colours unless NO_COLOR is set, and the "
      "game file (PGN) into a pipe. --json, --pgn and --outline can't stand together.\n\n"
      "Examples:\n"
      "  plyscribe extract lesson.vtt\n"
      "  plyscribe extract lesson.srt --start \"Catalan\" --side white --out catalan/\n"
      "  plyscribe extract lesson.json --start \"1. e4 e5 2. Nf3 Nc6\" > lesson.pgn");
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace plyscribe::app
