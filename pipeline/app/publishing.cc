#include "app/publishing.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <iterator>
#include <utility>

#include "app/command_help.h"
#include "app/files.h"

namespace plyscribe::app {

void add_publishing_options(CLI::App& command, PublishingOptions& options) {
  command
      .add_option("--link", options.link,
                  "Address that plays the recording from {seconds}; without it, the recording's "
                  "own address with #t=")
      ->type_name("TEMPLATE");
  takes_one_of(*command.add_option("--notation", options.notation, "How captions write moves"),
               {"letters", "words", "figurines"});
  std::vector<std::string> languages;
  for (const publish::PieceLetters& l : publish::piece_languages())
    languages.emplace_back(l.language);
  takes_one_of(*command.add_option("--pieces", options.pieces,
                                   "Language of the piece letters in captions, such as German"),
               languages, Spelling::kAnyCase, "LANGUAGE");
}

publish::Notation notation_of(const PublishingOptions& options) {
  publish::Notation notation;
  if (options.notation == "words") notation.style = publish::NotationStyle::kWords;
  if (options.notation == "figurines") notation.style = publish::NotationStyle::kFigurines;
  for (const publish::PieceLetters& l : publish::piece_languages()) {
    if (CLI::detail::to_lower(std::string(l.language)) == CLI::detail::to_lower(options.pieces)) {
      notation.language = l.language;
    }
  }
  return notation;
}

Result<publish::Link> link_of(const PublishingOptions& options, const std::string& media) {
  if (options.link.empty()) return publish::Link::of_media(media);
  auto link = publish::Link::parse(options.link);
  if (!link) return Error{fmt::format("--link: {}", link.error().message)};
  return link;
}

Result<std::vector<publish::Output>> write_kinds(const std::vector<const publish::Kind*>& chosen,
                                                 const publish::Edition& edition) {
  std::vector<const publish::Kind*> kinds = chosen;
  if (kinds.empty()) {
    for (const publish::Kind* kind : publish::kinds()) {
      if (edition.original || !kind->needs_original) kinds.push_back(kind);
    }
  }
  std::vector<publish::Output> outputs;
  for (const publish::Kind* kind : kinds) {
    if (kind->needs_original && !edition.original) {
      return Error{fmt::format(
          "--as {}: expected --transcript with the transcript that the lesson was made from",
          kind->name)};
    }
    auto written = kind->write(edition);
    if (!written) return written.error();
    outputs.insert(outputs.end(), std::make_move_iterator(written->begin()),
                   std::make_move_iterator(written->end()));
  }
  return outputs;
}

std::optional<Error> write_outputs(const std::string& folder,
                                   const std::vector<publish::Output>& outputs) {
  std::vector<OutputFile> files;
  for (const publish::Output& output : outputs) files.push_back({output.name, output.bytes});
  return write_files(folder, files);
}

}  // namespace plyscribe::app
