#include "lesson/pins.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <initializer_list>
#include <nlohmann/json.hpp>

#include "lesson/lesson.h"
#include "lesson/lines.h"
#include "support/shown.h"

namespace plyscribe::lesson {
namespace {

using Json = nlohmann::ordered_json;
using resolve::Pin;

constexpr std::string_view kSchema = "plyscribe.pins/1";

// Thrown inside this file only; read_pins turns it into the Error it returns.
struct Mismatch {
  std::string place, expected;
};

void only_keys(const Json& object, const std::string& place,
               std::initializer_list<std::string_view> known, const std::string& expected) {
  for (const auto& [key, value] : object.items()) {
    if (std::find(known.begin(), known.end(), key) == known.end()) {
      throw Mismatch{place.empty() ? shown(key) : place + "." + shown(key), expected};
    }
  }
}

const Json& value_of(const Json& object, const std::string& place, const char* key) {
  const auto it = object.find(key);
  if (it == object.end()) throw Mismatch{place, fmt::format("the key \"{}\"", key)};
  return *it;
}

std::string text_of(const Json& value, const std::string& place) {
  if (!value.is_string()) throw Mismatch{place, "a text"};
  return value.get<std::string>();
}

std::string move_of(const Json& value, const std::string& place) {
  std::string san = text_of(value, place);
  if (san.empty()) throw Mismatch{place, "a move"};
  return san;
}

std::uint32_t word_of(const Json& value, const std::string& place) {
  constexpr std::int64_t kMost = 1'000'000'000;
  if (!value.is_number_integer() || value.get<std::int64_t>() < 0 ||
      value.get<std::int64_t>() > kMost) {
    throw Mismatch{place, "the number of a word"};
  }
  return static_cast<std::uint32_t>(value.get<std::int64_t>());
}

PinnedWords words_of(const Json& entry, const std::string& place) {
  if (!entry.is_object()) throw Mismatch{place, "an object"};
  PinnedWords out;
  out.pin.first_word = word_of(value_of(entry, place, "first_word"), place + ".first_word");
  out.pin.last_word = word_of(value_of(entry, place, "last_word"), place + ".last_word");
  if (out.pin.last_word <= out.pin.first_word) {
    throw Mismatch{place + ".last_word", "a word after first_word"};
  }
  const Json& t = value_of(entry, place, "t");
  if (!t.is_number() || !(t.get<double>() >= 0 && t.get<double>() <= 1e9)) {
    throw Mismatch{place + ".t", "a time in seconds"};
  }
  out.t = round_seconds(t.get<double>());
  out.heard = text_of(value_of(entry, place, "heard"), place + ".heard");
  const std::string is = text_of(value_of(entry, place, "is"), place + ".is");
  const std::string only = fmt::format("no more keys for a pin that is \"{}\"", shown(is));
  if (is == "move") {
    only_keys(entry, place, {"first_word", "last_word", "t", "heard", "is", "san"}, only);
    out.pin.kind = Pin::Kind::kMove;
    out.pin.san = move_of(value_of(entry, place, "san"), place + ".san");
  } else if (is == "line") {
    only_keys(entry, place, {"first_word", "last_word", "t", "heard", "is", "line"}, only);
    out.pin.kind = Pin::Kind::kLine;
    const Json& line = value_of(entry, place, "line");
    if (!line.is_array() || line.empty()) throw Mismatch{place + ".line", "a list of moves"};
    for (std::size_t i = 0; i < line.size(); ++i) {
      out.pin.line.push_back(move_of(line[i], fmt::format("{}.line[{}]", place, i)));
    }
  } else if (is == "no move") {
    only_keys(entry, place, {"first_word", "last_word", "t", "heard", "is"}, only);
    out.pin.kind = Pin::Kind::kNoMove;
  } else {
    throw Mismatch{place + ".is", "\"move\", \"line\" or \"no move\""};
  }
  return out;
}

Pins pins_of(const Json& root) {
  if (!root.is_object()) {
    throw Mismatch{"1", fmt::format("an object with \"schema\": \"{}\"", kSchema)};
  }
  if (root.contains("schema") && !root["schema"].is_string()) throw Mismatch{"schema", "a text"};
  if (!root.contains("schema") || root["schema"] != kSchema) {
    throw Mismatch{"1", fmt::format("an object with \"schema\": \"{}\"", kSchema)};
  }
  only_keys(root, "", {"schema", "start", "side", "pins"}, "only the keys start, side and pins");
  Pins out;
  if (root.contains("start")) out.start = text_of(root["start"], "start");
  if (root.contains("side")) out.side = text_of(root["side"], "side");
  if (!out.side.empty() && out.side != "white" && out.side != "black") {
    throw Mismatch{"side", "white or black"};
  }
  if (!root.contains("pins")) return out;
  if (!root["pins"].is_array()) throw Mismatch{"pins", "a list"};
  for (std::size_t i = 0; i < root["pins"].size(); ++i) {
    out.words.push_back(words_of(root["pins"][i], fmt::format("pins[{}]", i)));
  }
  return out;
}

std::string heard_at(const Pin& pin, const transcript::Transcript& transcript) {
  std::string out;
  for (std::uint32_t w = pin.first_word; w < pin.last_word; ++w) {
    if (w > pin.first_word) out += ' ';
    out += transcript.words[w].text;
  }
  return out;
}

}  // namespace

Result<Pins> read_pins(std::string_view json, std::string_view name) {
  try {
    return pins_of(Json::parse(json));
  } catch (const Json::parse_error& e) {
    return Error{fmt::format("{}:{}: expected JSON", name, line_at(json, e.byte))};
  } catch (const Json::out_of_range&) {
    return Error{fmt::format("{}:1: expected JSON without numbers of over 300 digits", name)};
  } catch (const Mismatch& m) {
    return Error{fmt::format("{}:{}: expected {}", name, m.place, m.expected)};
  }
}

std::string write_pins(const Pins& pins) {
  Json root{{"schema", kSchema}};
  if (!pins.start.empty()) root["start"] = pins.start;
  if (!pins.side.empty()) root["side"] = pins.side;
  Json list = Json::array();
  for (const PinnedWords& w : pins.words) {
    Json entry{{"first_word", w.pin.first_word},
               {"last_word", w.pin.last_word},
               {"t", round_seconds(w.t)},
               {"heard", w.heard}};
    switch (w.pin.kind) {
      case Pin::Kind::kMove:
        entry["is"] = "move";
        entry["san"] = w.pin.san;
        break;
      case Pin::Kind::kLine:
        entry["is"] = "line";
        entry["line"] = w.pin.line;
        break;
      case Pin::Kind::kNoMove:
        entry["is"] = "no move";
        break;
    }
    list.push_back(std::move(entry));
  }
  if (!list.empty()) root["pins"] = std::move(list);
  return root.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

PinnedWords pinned_words(const Pin& pin, const transcript::Transcript& transcript) {
  assert(pin.first_word < pin.last_word && pin.last_word <= transcript.words.size());
  return {pin, round_seconds(transcript.words[pin.first_word].start), heard_at(pin, transcript)};
}

Result<std::vector<Pin>> pins_for(const Pins& pins, const transcript::Transcript& transcript,
                                  std::string_view name) {
  std::vector<Pin> out;
  for (std::size_t i = 0; i < pins.words.size(); ++i) {
    const PinnedWords& w = pins.words[i];
    if (w.pin.last_word > transcript.words.size()) {
      return Error{
          fmt::format("{}:pins[{}]: expected words of this transcript, which has {}; "
                      "the pin doesn't belong here",
                      name, i, transcript.words.size())};
    }
    const std::string heard = heard_at(w.pin, transcript);
    if (heard != w.heard) {
      return Error{
          fmt::format("{}:pins[{}]: expected \"{}\" at word {}, where this transcript has "
                      "\"{}\"; the pin doesn't belong here",
                      name, i, shown(w.heard), w.pin.first_word, shown(heard))};
    }
    out.push_back(w.pin);
  }
  return out;
}

}  // namespace plyscribe::lesson
