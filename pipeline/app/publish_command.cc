// plyscribe publish LESSON.json: what goes out with a lesson, from the tree that extract kept.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/command_help.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/messages.h"
#include "app/publishing.h"
#include "lesson/lesson_json.h"
#include "publish/kind.h"
#include "transcript/transcript.h"

namespace plyscribe::app {
namespace {

struct PublishOptions {
  std::string lesson, transcript, out;
  std::vector<std::string> kinds;
  bool quiet = false;
  PublishingOptions publishing;
};

Result<std::vector<publish::Output>> publish_lesson(const PublishOptions& options) {
  const auto json = read_file(options.lesson);
  if (!json) return json.error();
  const auto lesson = lesson::read_json(*json, options.lesson);
  if (!lesson) {
    return Error{lesson.error().message + "; LESSON is the lesson.json that extract --out writes"};
  }
  const auto link = link_of(options.publishing, lesson->media);
  if (!link) return link.error();

  std::string bytes;
  transcript::Transcript transcript;
  std::optional<publish::Original> original;
  if (!options.transcript.empty()) {
    auto file = read_file(options.transcript);
    if (!file) return file.error();
    bytes = std::move(*file);
    auto read = transcript::read_transcript(bytes, options.transcript);
    if (!read) return read.error();
    transcript = std::move(*read);
    original.emplace(publish::Original{transcript, bytes});
  }
  std::vector<const publish::Kind*> chosen;
  for (const std::string& name : options.kinds) chosen.push_back(publish::find_kind(name));
  return write_kinds(chosen, {.lesson = *lesson,
                              .link = *link,
                              .notation = notation_of(options.publishing),
                              .original = original ? &*original : nullptr});
}

Status run(const PublishOptions& options) {
  const auto outputs = publish_lesson(options);
  if (!outputs) return complain(outputs.error().message);
  std::optional<Error> failure;
  if (!options.out.empty()) {
    failure = write_outputs(options.out, *outputs);
  } else if (outputs->size() == 1) {
    failure = write_standard_output(outputs->front().bytes);
  } else {
    failure = Error{fmt::format("--out: expected a folder for {} files", outputs->size())};
  }
  if (failure) return complain(failure->message);
  if (options.out.empty() || options.quiet) return Status::kDone;
  for (const publish::Output& output : *outputs) {
    say(fmt::format("wrote {}", (std::filesystem::path(options.out) / output.name).string()));
  }
  return Status::kDone;
}

std::string footer() {
  std::string text = "Kinds:\n";
  for (const publish::Kind* kind : publish::kinds()) {
    text += fmt::format("  {:<10} {} ({})\n", kind->name, kind->about, kind->files);
  }
  return text +
         "\nWithout --as, all of them. A kind that is one file is printed where --out is "
         "missing.\n\n"
         "Examples:\n"
         "  plyscribe publish lesson/lesson.json --out lesson/\n"
         "  plyscribe publish lesson.json --link \"https://video.example/7?t={seconds}\"";
}

}  // namespace

void add_publish_command(CLI::App& program, Status& status) {
  auto options = std::make_shared<PublishOptions>();
  CLI::App* command =
      program.add_subcommand("publish", "Write what goes out with a lesson, from its lesson.json");
  command->add_option("LESSON", options->lesson, "lesson.json, as extract --out writes it")
      ->required();
  std::vector<std::string> kinds;
  for (const publish::Kind* kind : publish::kinds()) kinds.emplace_back(kind->name);
  takes_one_of(*command->add_option("--as", options->kinds, "Kinds to write, joined by commas"),
               kinds, Spelling::kJoined, "KIND[,KIND]");
  command->add_option("--out", options->out, "Folder for what is written")->type_name("DIR");
  command
      ->add_option("--transcript", options->transcript,
                   "The transcript that the lesson was made from, for captions")
      ->type_name("FILE");
  add_publishing_options(*command, options->publishing);
  add_quiet_option(*command, options->quiet);
  command->footer(footer());
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace plyscribe::app
