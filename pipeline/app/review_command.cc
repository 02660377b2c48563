// plyscribe review LESSON: one page on which a lesson is heard, checked and put right.
#include <fmt/format.h>
#include <signal.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <utility>

#include "app/command_help.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/lesson_input.h"
#include "app/messages.h"
#include "app/progress.h"
#include "lesson/pins.h"
#include "resolve/decode.h"
#include "review/media.h"
#include "review/page.h"
#include "review/server.h"
#include "review/session.h"
#include "transcript/transcript.h"

namespace plyscribe::app {
namespace {

namespace fs = std::filesystem;

struct ReviewOptions {
  std::string lesson, start, side, pins, media, page, format;
  bool quiet = false;
  int port = 0;
};

// Where the pins are kept unless --pins says otherwise: beside the lesson, lesson.vtt.pins.json.
fs::path pins_path(const ReviewOptions& options) {
  return options.pins.empty() ? options.lesson + ".pins.json" : options.pins;
}

std::optional<Error> write_file(const fs::path& path, std::string_view bytes) {
  const fs::path folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
  return write_files(folder.string(), {{path.filename().string(), bytes}});
}

// No file yet is no pins yet.
Result<lesson::Pins> read_pins_file(const fs::path& path) {
  std::error_code failure;
  if (!fs::exists(path, failure) && !failure) return lesson::Pins{};
  const auto bytes = read_file(path.string());
  if (!bytes) return bytes.error();
  return lesson::read_pins(*bytes, path.string());
}

Result<std::unique_ptr<review::Session>> open_session(const ReviewOptions& options,
                                                      review::PageData& page) {
  const auto bytes = read_file(options.lesson);
  if (!bytes) return bytes.error();
  transcript::ReadOptions reading;
  if (!options.format.empty()) {
    reading.detect = false;
    reading.format = *transcript::parse_format_name(options.format);
  }
  auto transcript = transcript::read_transcript(*bytes, options.lesson, reading);
  if (!transcript) return transcript.error();
  const fs::path path = pins_path(options);
  auto pins = read_pins_file(path);
  if (!pins) return pins.error();
  if (const auto fitting = lesson::pins_for(*pins, *transcript, path.string()); !fitting) {
    return fitting.error();
  }
  resolve::DecodeOptions decoding;
  // The session decodes again and again with these options: the callback owns what it calls.
  const auto progress = std::make_shared<Progress>(work_on(options.lesson), options.quiet);
  decoding.progress = [progress, report = progress->reporter()](double share) { report(share); };
  decoding.start = options.start;
  if (options.side == "white") decoding.side = board::Color::kWhite;
  if (options.side == "black") decoding.side = board::Color::kBlack;

  page.title = transcript->title;
  if (page.title.empty()) page.title = one_line(fs::path(options.lesson).stem().string());
  page.file = one_line(fs::path(options.lesson).filename().string());
  page.pins_file = one_line(path.filename().string());
  auto session =
      review::Session::open(*std::move(transcript), std::move(decoding), *std::move(pins),
                            [path](std::string_view text) { return write_file(path, text); });
  progress->done();
  if (!session) {
    const std::string& message = session.error().message;
    return message.starts_with("--") ? Error{message}
                                     : Error{fmt::format("{}:1: {}", options.lesson, message)};
  }
  return session;
}

// A path as the address that a page in `folder` has for it.
std::string relative_address(const fs::path& file, const fs::path& folder) {
  std::string out;
  for (const unsigned char c :
       fs::proximate(fs::absolute(file), fs::absolute(folder)).generic_string()) {
    const bool plain = std::isalnum(c) != 0 || std::string_view("/._~-").find(
                                                   static_cast<char>(c)) != std::string_view::npos;
    out += plain ? std::string(1, static_cast<char>(c)) : fmt::format("%{:02X}", c);
  }
  return out;
}

Status write_page_file(const ReviewOptions& options, review::Session& session,
                       review::PageData page) {
  const fs::path out = options.page;
  if (!page.media.empty() && !review::is_web_address(page.media)) {
    page.media = relative_address(page.media, out.has_parent_path() ? out.parent_path() : ".");
  }
  const std::string html = review::render_page(
      page.title, review::content_policy(false, page.media), session.page(page));
  if (auto error = write_file(out, html)) return complain(error->message);
  if (!options.quiet) say(fmt::format("the page is {}", options.page));
  return Status::kDone;
}

// Serves until SIGINT or SIGTERM. Pins are saved with each correction, so there is nothing to end.
Status serve(const ReviewOptions& options, review::Session& session, review::PageData page) {
  std::optional<review::MediaFile> media;
  page.served = true;
  if (!page.media.empty() && !review::is_web_address(page.media)) {
    auto file = review::MediaFile::open(page.media);
    if (!file) return complain(file.error().message);
    media.emplace(*std::move(file));
    page.media = "media";
  }
  const auto server =
      review::Server::open(session, std::move(page), std::move(media), options.port);
  if (!server) return complain(server.error().message);

  sigset_t signals;
  sigemptyset(&signals);
  sigaddset(&signals, SIGINT);
  sigaddset(&signals, SIGTERM);
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);  // before any thread begins: all inherit it
  std::thread ending([&] {
    int signal = 0;
    sigwait(&signals, &signal);
    (*server)->stop();
  });
  if (auto error = write_standard_output((*server)->address() + "\n"))
    return complain(error->message);
  if (!options.quiet) {
    say(fmt::format("open this address in a browser; Ctrl-C ends. Corrections go to {}",
                    pins_path(options).string()));
  }
  (*server)->run();
  ending.join();
  return Status::kDone;
}

Status run(const ReviewOptions& options) {
  review::PageData page;
  page.media = options.media;
  const auto session = open_session(options, page);
  if (!session) return complain(session.error().message);
  return options.page.empty() ? serve(options, **session, std::move(page))
                              : write_page_file(options, **session, std::move(page));
}

}  // namespace

void add_review_command(CLI::App& program, Status& status) {
  auto options = std::make_shared<ReviewOptions>();
  CLI::App* command = program.add_subcommand(
      "review", "Hear, check and correct a lesson on a page in your browser");
  command->add_option("LESSON", options->lesson, "Timed transcript")->required();
  command->add_option("--media", options->media, "Recording: a file, or its address")
      ->type_name("FILE|URL");
  command->add_option("--pins", options->pins, "File of corrections; LESSON.pins.json if not given")
      ->type_name("FILE");
  command
      ->add_option("--port", options->port, "Port to serve the page on; any free one if not given")
      ->type_name("N")
      ->check([](const std::string& text) {
        const bool number = !text.empty() && text.size() <= 5 &&
                            text.find_first_not_of("0123456789") == std::string::npos;
        return number && std::stoi(text) <= 65535
                   ? std::string()
                   : fmt::format("expected a port, 0 to 65535, not '{}'", text);
      });
  command->add_option("--page", options->page, "Write the page into one file instead of serving it")
      ->type_name("OUT.html");
  command
      ->add_option("--start", options->start,
                   "Position in which the lesson begins: an opening's name, moves or FEN")
      ->type_name("NAME|MOVES|FEN");
  takes_one_of(*command->add_option("--side", options->side, "Whom the lesson is for"),
               {"white", "black"});
  takes_one_of(*command->add_option("--format", options->format,
                                    "Format of the transcript, where detection errs"),
               transcript::format_names());
  add_quiet_option(*command, options->quiet);
  command->footer(
      "Prints the page's address, which only this machine can reach, and serves until Ctrl-C.\n"
      "Each correction is saved at once.\n\n"
      "Examples:\n"
      "  plyscribe review lesson.vtt --media lesson.mp4\n"
      "  plyscribe review lesson.vtt --page lesson.html");
  command->callback([options, &status] { status = run(*options); });
}

}  // namespace plyscribe::app
