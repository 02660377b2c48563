#include "resolve/decode.h"

#include "resolve/decoder.h"

namespace plyscribe::resolve {

Result<Decoding> decode(const transcript::Transcript& transcript, const DecodeOptions& options) {
  return Decoder(transcript).decode(options);
}

Result<Decoding> decode(const transcript::Transcript& transcript, const DecodeOptions& options,
                        const Model& model) {
  return Decoder(transcript, model).decode(options);
}

}  // namespace plyscribe::resolve
