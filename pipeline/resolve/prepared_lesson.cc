#include "resolve/prepared_lesson.h"

#include <algorithm>
#include <map>
#include <string>

namespace plyscribe::resolve {
namespace {

// By reading: the first that names the same moves at the same costs. A lesson says most of its
// moves many times.
std::vector<std::uint32_t> like_readings(const std::vector<hearing::Reading>& readings) {
  const auto less = [](const hearing::Reading* a, const hearing::Reading* b) {
    return hearing::named_by(*a) < hearing::named_by(*b);
  };
  std::map<const hearing::Reading*, std::uint32_t, decltype(less)> first(less);
  std::vector<std::uint32_t> out;
  for (const hearing::Reading& r : readings) {
    out.push_back(first.try_emplace(&r, static_cast<std::uint32_t>(out.size())).first->second);
  }
  return out;
}

}  // namespace

Lesson prepare(const hearing::Lattice& lattice, const Model& model) {
  Lesson lesson;
  lesson.lattice = lattice;
  lesson.trust =
      lattice.script == hearing::Script::kWritten ? Trust::kDictated : Trust::kSpokenWords;
  const auto contexts = contexts_of(lattice);
  for (const Context& c : contexts) {
    Surroundings& around = lesson.around.emplace_back();
    for (const std::string& s : c.strings) {
      const std::uint32_t id = model.context_id(s);
      if (id != Model::kUnknown) around.contexts.push_back(id);
    }
    around.side = c.side;
    around.gap = c.gap;
  }
  lesson.same_as = like_readings(lattice.readings);
  const auto& tokens = lattice.tokens;
  lesson.break_before.assign(tokens.size() + 1, 0);
  for (std::size_t t = 1; t < tokens.size(); ++t) {
    std::uint8_t b = 0;
    for (char c : tokens[t - 1].mark) {
      b = std::max<std::uint8_t>(b, c == '.' || c == '!' || c == '?' || c == ';' ? 2 : 1);
    }
    if (tokens[t].opens_paragraph && lattice.script == hearing::Script::kWritten) b = 3;
    if (tokens[t].pause > 0.25F) b = std::max<std::uint8_t>(b, 1);
    if (tokens[t].pause > 0.6F) b = 2;
    lesson.break_before[t] = b;
  }
  return lesson;
}

}  // namespace plyscribe::resolve
