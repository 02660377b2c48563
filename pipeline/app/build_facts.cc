#include "app/build_facts.h"

#include <fmt/format.h>

#include <cstdint>
#include <initializer_list>
#include <string_view>

#include "embedded/book_bin.h"
#include "embedded/cues_tsv.h"
#include "embedded/heard_tsv.h"
#include "embedded/letters_tsv.h"
#include "embedded/moves_txt.h"
#include "embedded/openings_tsv.h"
#include "embedded/pronunciations_tsv.h"
#include "embedded/sayings_tsv.h"
#include "embedded/vocabulary_tsv.h"
#include "embedded/weights_tsv.h"
#include "generated/commit.h"

namespace plyscribe::app {
namespace {

#if defined(__clang__)
constexpr std::string_view kCompiler = "Clang " __clang_version__;
#elif defined(__GNUC__)
constexpr std::string_view kCompiler = "GCC " __VERSION__;
#else
constexpr std::string_view kCompiler = "a compiler that is not known";
#endif

#if defined(__BMI2__)
constexpr std::string_view kInstructions = ", BMI2";
#else
constexpr std::string_view kInstructions = "";
#endif

// FNV-1a, 32 bits: a short name for the bytes of some files, no seal.
std::string fingerprint(std::initializer_list<std::string_view> files) {
  std::uint32_t hash = 2166136261U;
  for (const std::string_view bytes : files) {
    for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
  }
  return fmt::format("{:08x}", hash);
}

}  // namespace

std::string build_facts() {
  namespace data = embedded;
  return fmt::format(
      "plyscribe {}\n"
      "commit: {}\n"
      "built by: {}, {}{}\n"
      "data: openings {}, master play {}, sounds {}, grammar {}, weights {}",
      PLYSCRIBE_VERSION, kCommit, kCompiler, PLYSCRIBE_BUILD_TYPE, kInstructions,
      fingerprint({data::openings_tsv}), fingerprint({data::book_bin}),
      fingerprint({data::pronunciations_tsv, data::letters_tsv, data::heard_tsv}),
      fingerprint({data::vocabulary_tsv, data::moves_txt, data::cues_tsv, data::sayings_tsv}),
      fingerprint({data::weights_tsv}));
}

}  // namespace plyscribe::app
