// plyscribe explain LESSON --at TIME: why the words there were understood as they were.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <memory>
#include <string>

#include "app/commands.h"
#include "app/files.h"
#include "app/lesson_input.h"
#include "app/progress.h"
#include "resolve/decoder.h"
#include "resolve/explain.h"
#include "transcript/clock.h"

namespace plyscribe::app {
namespace {

struct ExplainOptions {
  LessonOptions input;
  std::string at;
};

// "7:12" and "432" mean the whole second, "432.25" that moment.
struct Moment {
  double from = 0, to = 0;
};
std::optional<Moment> moment(const std::string& text) {
  const auto clock = transcript::parse_clock(text);
  const auto t = clock ? clock : transcript::parse_decimal(text);
  if (!t) return std::nullopt;
  return Moment{*t, *t + (text.find('.') == std::string::npos ? 1.0 : 0.001)};
}

Status run(const ExplainOptions& options) {
  const auto at = moment(options.at);
  auto input = read_lesson(options.input);
  if (!input) return complain(input.error().message);
  resolve::Decoder decoder(input->transcript);
  Progress progress(work_on(options.input.lesson), options.input.quiet);
  (*input).decoding.progress = progress.reporter();
  const auto decoded = decoder.decode(input->decoding);
  progress.done();
  if (!decoded) return complain(located(options.input, decoded.error()).message);
  say_unheld(options.input, *decoded);
  const auto mentions = resolve::explain(decoder, input->transcript, at->from, at->to);
  if (mentions.empty()) {
    return complain(fmt::format("--at {}: expected a time at which words are spoken, up to {}",
                                options.at, transcript::show_clock(input->transcript.duration)));
  }
  if (const auto error = write_standard_output(resolve::write_explanation(mentions))) {
    return complain(error->message);
  }
  return Status::kDone;
}

}  // namespace

void add_explain_command(CLI::App& program, Status& status) {
  auto options = std::make_shared<ExplainOptions>();
  CLI::App* command =
      program.add_subcommand("explain", "Tell why words of a lesson were understood as they were");
  add_lesson_options(*command, options->input);
  command->add_option("--at", options->at, "Time of the words: m:ss or seconds")
      ->required()
      ->type_name("TIME")
      ->check([](const std::string& text) {
        return moment(text) ? std::string() : "expected a time as 7:12 or 432, not " + text;
      });
  command->footer(
      "Prints, for each mention there: its readings and their costs; what was weighed, with\n"
      "the terms of each gain in nats, named as in pipeline/resolve/weights.tsv; and how the\n"
      "outcomes stood at these words, some words later and at the end.\n\n"
      "Examples:\n"
      "  plyscribe explain lesson.vtt --at 7:12");
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace plyscribe::app
