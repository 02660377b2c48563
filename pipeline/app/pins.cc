#include "app/pins.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "lesson/lines.h"

namespace plyscribe::app {

Result<Pins> read_pins(std::string_view json, std::string_view name) {
  const auto expected = [&](std::string_view place, std::string_view what) {
    return Error{fmt::format("{}:{}: expected {}", name, place, what)};
  };
  Pins pins;
  try {
    const auto root = nlohmann::json::parse(json);
    if (!root.is_object() || root.value("schema", "") != "plyscribe.pins/1") {
      return expected("1", "an object with \"schema\": \"plyscribe.pins/1\"");
    }
    for (const auto& [key, value] : root.items()) {
      if (key == "schema") continue;
      if (key != "start" && key != "side") return expected(key, "only the pins start and side");
      if (!value.is_string()) return expected(key, "a text");
      (key == "start" ? pins.start : pins.side) = value.get<std::string>();
    }
  } catch (const nlohmann::json::parse_error& e) {
    return expected(std::to_string(lesson::line_at(json, e.byte)), "JSON");
  } catch (const nlohmann::json::type_error&) {
    return expected("schema", "a text");
  }
  if (!pins.side.empty() && pins.side != "white" && pins.side != "black") {
    return expected("side", "white or black");
  }
  return pins;
}

}  // namespace plyscribe::app
