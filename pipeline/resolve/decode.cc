#include "resolve/decode.h"

#include "resolve/decoder.h"

namespace plyscribe::resolve {

Result<Decoding> decode(const transcript::Transcript& transcript, const DecodeOptions& options) {
  return Decoder(transcript, true).decode(options);
}

Result<Decoding> decode(const transcript::Transcript& transcript, const DecodeOptions& options,
                        const Model& model) {
  return Decoder(transcript, model, true).decode(options);
}

}  // namespace plyscribe::resolve
