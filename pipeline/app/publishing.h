// What extract and publish have in common: kinds picked by name, written, and put on the disk.
#ifndef PLYSCRIBE_APP_PUBLISHING_H_
#define PLYSCRIBE_APP_PUBLISHING_H_

#include <optional>
#include <string>
#include <vector>

#include "publish/kind.h"
#include "support/result.h"

namespace CLI {
class App;
}

namespace plyscribe::app {

struct PublishingOptions {
  std::string link, notation, pieces;
};

void add_publishing_options(CLI::App& command, PublishingOptions& options);

// The template of --link where it is given, else the lesson's recording. Errors: "--link: ...".
Result<publish::Link> link_of(const PublishingOptions& options, const std::string& media);

publish::Notation notation_of(const PublishingOptions& options);

// The files of these kinds. No kind: all that can be written without anything that isn't at hand.
Result<std::vector<publish::Output>> write_kinds(const std::vector<const publish::Kind*>& chosen,
                                                 const publish::Edition& edition);

// As write_files of files.h.
std::optional<Error> write_outputs(const std::string& folder,
                                   const std::vector<publish::Output>& outputs);

}  // namespace plyscribe::app

#endif  // PLYSCRIBE_APP_PUBLISHING_H_
