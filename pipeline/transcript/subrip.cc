#include "transcript/readers.h"

namespace plyscribe::transcript {

Result<Transcript> read_subrip(const Source& source) { return source.expected(0, "another format: this one is not read yet"); }

}  // namespace plyscribe::transcript
