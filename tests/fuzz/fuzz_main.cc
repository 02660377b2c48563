// The fuzzer: libFuzzer feeds the target that PLYSCRIBE_FUZZ_TARGET names. See run.sh.
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "tests/fuzz/target.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const plyscribe::fuzz::Target* const target = [] {
    const char* name = std::getenv("PLYSCRIBE_FUZZ_TARGET");
    const auto* found = plyscribe::fuzz::find_target(name == nullptr ? "" : name);
    if (found == nullptr) {
      std::fprintf(stderr, "expected a target in PLYSCRIBE_FUZZ_TARGET\n");
      std::exit(2);
    }
    return found;
  }();
  if (size <= target->most_bytes) target->run({reinterpret_cast<const char*>(data), size});
  return 0;
}
