#include "review/session.h"

#include <fmt/format.h>

#include <chrono>
#include <nlohmann/json.hpp>
#include <utility>

#include "review/queue.h"

namespace plyscribe::review {

Session::Session(transcript::Transcript transcript, resolve::DecodeOptions options, Save save)
    : transcript_(std::move(transcript)),
      options_(std::move(options)),
      save_(std::move(save)),
      decoder_(transcript_),
      hearing_(decoder_.lesson().lattice, transcript_.words.size()) {}

Result<std::unique_ptr<Session>> Session::open(transcript::Transcript transcript,
                                               resolve::DecodeOptions options, lesson::Pins pins,
                                               Save save) {
  std::unique_ptr<Session> session(
      new Session(std::move(transcript), std::move(options), std::move(save)));
  auto reading = session->read(std::move(pins));
  if (!reading) return reading.error();
  session->now_ = *std::move(reading);
  return session;
}

Result<Session::Reading> Session::read(lesson::Pins pins) {
  const auto begin = std::chrono::steady_clock::now();
  auto words = lesson::pins_for(pins, transcript_, "pins");
  if (!words) return words.error();
  resolve::DecodeOptions options = options_;
  if (options.start.empty()) options.start = pins.start;
  if (!options.side && pins.side == "white") options.side = board::Color::kWhite;
  if (!options.side && pins.side == "black") options.side = board::Color::kBlack;
  options.pins = *words;
  auto decoding = decoder_.decode(options);
  if (!decoding) return decoding.error();
  Reading reading;
  reading.pins = std::move(pins);
  reading.decoding = *std::move(decoding);
  reading.lesson = lesson::build_lesson(reading.decoding, transcript_);
  reading.queue = build_queue(reading.decoding, reading.lesson, hearing_);
  reading.milliseconds =
      std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
  return reading;
}

std::string Session::state() const {
  return write_state({.decoding = now_.decoding,
                      .lesson = now_.lesson,
                      .pins = now_.pins,
                      .queue = now_.queue,
                      .changes = changes_ ? &*changes_ : nullptr,
                      .revision = revision_,
                      .undo = undo_.size(),
                      .redo = redo_.size()});
}

std::string Session::page(const PageData& page) {
  const std::lock_guard lock(mutex_);
  return write_page(page, transcript_, state());
}

Answer Session::refuse(int status, std::string_view error) const {
  // The state is JSON already; only the text has to be made so.
  const std::string text =
      nlohmann::json(error).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  return {status, fmt::format(R"({{"error":{},"state":{}}})", text, state()), 0};
}

// From here to `pins`: today's go to `to`, and if `pins` were the last of `from`, they leave it.
Answer Session::step(lesson::Pins pins, std::vector<lesson::Pins>* from,
                     std::vector<lesson::Pins>* to) {
  auto reading = read(std::move(pins));
  if (!reading) return refuse(422, reading.error().message);
  if (auto error = save_(lesson::write_pins(reading->pins))) return refuse(500, error->message);
  changes_ = compare(now_.decoding, reading->decoding);
  to->push_back(std::move(now_.pins));
  if (from != nullptr) from->pop_back();
  if (from == nullptr) redo_.clear();
  now_ = *std::move(reading);
  ++revision_;
  return {200, state(), now_.milliseconds};
}

Answer Session::set_pins(std::size_t revision, std::string_view json) {
  const std::lock_guard lock(mutex_);
  if (revision != revision_) return refuse(409, "the lesson was corrected in another window");
  auto pins = lesson::read_pins(json, "pins");
  if (!pins) return refuse(422, pins.error().message);
  return step(*std::move(pins), nullptr, &undo_);
}

Answer Session::undo(std::size_t revision) {
  const std::lock_guard lock(mutex_);
  if (revision != revision_) return refuse(409, "the lesson was corrected in another window");
  if (undo_.empty()) return refuse(422, "nothing to undo");
  return step(lesson::Pins(undo_.back()), &undo_, &redo_);
}

Answer Session::redo(std::size_t revision) {
  const std::lock_guard lock(mutex_);
  if (revision != revision_) return refuse(409, "the lesson was corrected in another window");
  if (redo_.empty()) return refuse(422, "nothing to redo");
  return step(lesson::Pins(redo_.back()), &redo_, &undo_);
}

}  // namespace plyscribe::review
