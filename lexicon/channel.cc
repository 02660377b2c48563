#include "lexicon/channel.h"

#include <algorithm>
#include <charconv>
#include <tuple>
#include <unordered_map>
#include <utility>
#include <vector>

#include "embedded/background_tsv.h"
#include "embedded/heard_tsv.h"
#include "embedded/phones_tsv.h"
#include "lexicon/lines.h"

namespace plyscribe::lexicon {
namespace {

constexpr float kRareWord = 16.0F;  // rarer than any word of background.tsv
constexpr std::string_view kNothing = "-";

template <typename Number>
Number read_number(std::string_view text) {
  Number out{};
  std::from_chars(text.data(), text.data() + text.size(), out);
  return out;
}

struct Tables {
  std::vector<std::string_view> units;  // sorted
  std::vector<Hearing> hearings;        // by heard, then cost
  std::unordered_map<std::string_view, std::span<const Hearing>> by_heard;
};

Unit id_of(const std::vector<std::string_view>& units, std::string_view name) {
  return static_cast<Unit>(std::lower_bound(units.begin(), units.end(), name) - units.begin());
}

std::uint8_t words_in(std::string_view text) {
  return static_cast<std::uint8_t>(text.empty() ? 0
                                                : 1 + std::count(text.begin(), text.end(), ' '));
}

Tables read_tables() {
  Tables out;
  const auto for_each_line = [](auto&& use) {
    std::string_view rest = embedded::heard_tsv;
    take_until(rest, '\n');  // header
    while (!rest.empty()) {
      std::string_view line = take_until(rest, '\n');
      const std::string_view units = take_until(line, '\t');
      use(units, line);
    }
  };
  for_each_line([&out](std::string_view units, std::string_view) {
    while (!units.empty()) out.units.push_back(take_until(units, ' '));
  });
  std::sort(out.units.begin(), out.units.end());
  out.units.erase(std::unique(out.units.begin(), out.units.end()), out.units.end());
  for_each_line([&out](std::string_view units, std::string_view line) {
    Hearing h;
    while (!units.empty() && h.unit_count < h.units.size())
      h.units[h.unit_count++] = id_of(out.units, take_until(units, ' '));
    h.heard = take_until(line, '\t');
    if (h.heard == kNothing) h.heard = {};
    h.word_count = words_in(h.heard);
    h.count = read_number<std::uint32_t>(take_until(line, '\t'));
    h.total = read_number<std::uint32_t>(take_until(line, '\t'));
    h.cost = read_number<float>(take_until(line, '\t'));
    h.background = read_number<float>(line);
    out.hearings.push_back(h);
  });
  std::sort(out.hearings.begin(), out.hearings.end(), [](const Hearing& a, const Hearing& b) {
    return std::tie(a.heard, a.cost, a.units) < std::tie(b.heard, b.cost, b.units);
  });
  for (auto first = out.hearings.begin(); first != out.hearings.end();) {
    const auto last = std::find_if(first, out.hearings.end(),
                                   [&](const Hearing& h) { return h.heard != first->heard; });
    out.by_heard.emplace(first->heard, std::span<const Hearing>(first, last));
    first = last;
  }
  return out;
}

const Tables& tables() {
  static const Tables t = read_tables();
  return t;
}

PhoneCosts read_phone_costs() {
  PhoneCosts out;
  std::string_view rest = embedded::phones_tsv;
  take_until(rest, '\n');  // header
  while (!rest.empty()) {
    std::string_view line = take_until(rest, '\n');
    const auto said = phone_named(take_until(line, '\t'));
    const auto heard = phone_named(take_until(line, '\t'));
    const float cost = read_number<float>(line);
    if (said && heard) {
      out.as[*said][*heard] = cost;
    } else if (said) {
      out.lost[*said] = cost;
    } else if (heard) {
      out.put_in[*heard] = cost;
    }
  }
  return out;
}

}  // namespace

std::size_t unit_count() { return tables().units.size(); }

std::string_view unit_name(Unit u) { return tables().units[u]; }

std::optional<Unit> unit_named(std::string_view name) {
  const auto& units = tables().units;
  const Unit u = id_of(units, name);
  if (u == units.size() || units[u] != name) return std::nullopt;
  return u;
}

std::span<const Hearing> heard_as(std::string_view words) {
  const auto& by_heard = tables().by_heard;
  const auto at = by_heard.find(words);
  return at == by_heard.end() ? std::span<const Hearing>{} : at->second;
}

std::span<const Hearing> all_hearings() { return tables().hearings; }

float background_cost(std::string_view word) {
  const std::string_view cost = find_line(embedded::background_tsv, word);
  return cost.empty() ? kRareWord : read_number<float>(cost);
}

const PhoneCosts& phone_costs() {
  static const PhoneCosts costs = read_phone_costs();
  return costs;
}

float sound_cost(std::span<const Phone> said, std::span<const Phone> heard) {
  const PhoneCosts& c = phone_costs();
  std::vector<float> row(heard.size() + 1, 0.0F);  // cost of said[0, i) heard as heard[0, j)
  for (std::size_t j = 0; j < heard.size(); ++j) row[j + 1] = row[j] + c.put_in[heard[j]];
  for (const Phone s : said) {
    float diagonal = row[0];
    row[0] += c.lost[s];
    for (std::size_t j = 0; j < heard.size(); ++j) {
      const float as = diagonal + c.as[s][heard[j]];
      diagonal = row[j + 1];
      row[j + 1] = std::min({as, diagonal + c.lost[s], row[j] + c.put_in[heard[j]]});
    }
  }
  return row.back();
}

}  // namespace plyscribe::lexicon
