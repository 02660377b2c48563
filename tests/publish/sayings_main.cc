// sayings LESSON_DIR... [--judgements PERCENT] [--advice PERCENT]: how many judgements and how much
// advice are found on the right node; fails below these.
//
// Words of script.txt, moves of gold.json: what is measured is the annotation alone. Each row of
// gold-judgements.tsv (corpus/README.md) is hit if the node has the same number or the same advice;
// what was found and is in no row counts against the precision.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cctype>
#include <fstream>
#include <iostream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "corpus/gold.h"
#include "lesson/lesson.h"
#include "tests/publish/gold_decoding.h"

namespace plyscribe {
namespace {

struct Row {
  std::string time, words, what;
  std::vector<std::string> paths;  // any of them is right
};

// What was found: "$4" or "avoided", and the path of its node.
struct Heard {
  std::string what, path, words;
  double t = 0;
};

struct Tally {
  std::size_t gold = 0, hit = 0, found = 0, right = 0;
};

std::string slurp(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

std::vector<std::string> split(const std::string& text, const std::string& by) {
  std::vector<std::string> out;
  std::size_t from = 0;
  for (std::size_t at = text.find(by); at != std::string::npos; at = text.find(by, from)) {
    out.push_back(text.substr(from, at - from));
    from = at + by.size();
  }
  out.push_back(text.substr(from));
  return out;
}

std::size_t letters(const std::string& text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](unsigned char c) { return std::isalnum(c) != 0; }));
}

// Both texts have the same letters and digits; a word of the one becomes the words of the other
// that share some of its own.
class SameText {
 public:
  SameText(const std::vector<std::string>& from, const transcript::Transcript& to) {
    std::size_t at = 0;
    for (const transcript::Word& word : to.words) ends_.push_back(at += letters(word.text));
    total_ = at;
    at = 0;
    for (const std::string& word : from) {
      const std::size_t begin = at;
      at += letters(word);
      begin_.push_back(begin);
      end_.push_back(at);
    }
    same_ = at == total_;
  }
  bool same() const { return same_; }
  void move(std::uint32_t& first, std::uint32_t& last) const {
    const std::size_t begin = begin_[first], end = end_[last - 1];
    const auto word = [&](std::size_t letter) {
      return static_cast<std::uint32_t>(std::upper_bound(ends_.begin(), ends_.end(), letter) -
                                        ends_.begin());
    };
    first = word(begin);
    last = word(end - 1) + 1;
  }

 private:
  std::vector<std::size_t> ends_, begin_, end_;
  std::size_t total_ = 0;
  bool same_ = false;
};

Result<lesson::Lesson> gold_lesson(const std::string& dir) {
  const auto gold = corpus::load_gold(dir);
  if (!gold) return gold.error();
  auto decoded = tests::read_gold_decoding(dir + "/gold.json");
  if (!decoded) return decoded.error();
  const std::string bytes = slurp(dir + "/script.txt");
  auto transcript = transcript::read_transcript(bytes, dir + "/script.txt");
  if (!transcript) return transcript.error();
  const SameText same(gold->script, *transcript);
  if (!same.same()) return Error{dir + "/script.txt:1: expected the words of lecture.src"};
  for (resolve::Mention& m : decoded->decoding.mentions) same.move(m.first_word, m.last_word);
  return lesson::build_lesson(decoded->decoding, *transcript);
}

Result<std::vector<Row>> read_rows(const std::string& path) {
  std::vector<Row> rows;
  std::istringstream in(slurp(path));
  std::string line;
  for (std::size_t number = 1; std::getline(in, line); ++number) {
    const auto fields = split(line, "\t");
    if (fields.size() != 4) {
      return Error{fmt::format("{}:{}: expected time, words, what and path", path, number)};
    }
    rows.push_back({fields[0], fields[1], fields[2], split(fields[3], " | ")});
  }
  if (rows.empty()) return Error{path + ":1: expected judgements"};
  return rows;
}

constexpr std::pair<lesson::Advice, const char*> kAdvice[] = {
    {lesson::Advice::kRecommended, "recommended"},
    {lesson::Advice::kPlayable, "playable"},
    {lesson::Advice::kAvoided, "avoided"},
    {lesson::Advice::kForCompleteness, "for completeness"},
};

std::vector<Heard> heard_in(const lesson::Lesson& lesson) {
  std::vector<Heard> all;
  std::vector<std::string> paths;
  for (const lesson::Node& n : lesson.nodes) {
    std::string path = n.parent > 0 ? paths[static_cast<std::size_t>(n.parent)] + " " : "";
    paths.push_back(n.parent < 0 ? "-" : path + n.san);
    for (const auto& j : n.judgements) {
      all.push_back({fmt::format("${}", j.nag), paths.back(), j.span.heard, j.span.t});
    }
    for (const auto& c : n.counsels) {
      for (const auto& [advice, name] : kAdvice) {
        if (advice == c.advice) all.push_back({name, paths.back(), c.span.heard, c.span.t});
      }
    }
  }
  return all;
}

void compare(const std::vector<Row>& rows, const std::vector<Heard>& heard, bool verbose,
             std::map<std::string, Tally>& tallies) {
  const auto sort_of = [](const std::string& what) {
    return what.starts_with("$") ? "judgements" : "advice";
  };
  const auto agrees = [](const Row& row, const Heard& h) {
    return row.what == h.what &&
           std::find(row.paths.begin(), row.paths.end(), h.path) != row.paths.end();
  };
  for (const Row& row : rows) {
    Tally& tally = tallies[sort_of(row.what)];
    ++tally.gold;
    const bool hit =
        std::any_of(heard.begin(), heard.end(), [&](const Heard& h) { return agrees(row, h); });
    tally.hit += hit ? 1 : 0;
    if (!hit && verbose)
      fmt::print("  missed {} {} \"{}\" at {}\n", row.time, row.what, row.words, row.paths[0]);
  }
  std::set<std::pair<std::string, std::string>> seen;  // the same said twice of a node counts once
  for (const Heard& h : heard) {
    if (!seen.insert({h.what, h.path}).second) continue;
    Tally& tally = tallies[sort_of(h.what)];
    ++tally.found;
    const bool right =
        std::any_of(rows.begin(), rows.end(), [&](const Row& row) { return agrees(row, h); });
    tally.right += right ? 1 : 0;
    if (!right && verbose) fmt::print("  extra {} {} \"{}\" at {}\n", h.t, h.what, h.words, h.path);
  }
}

// All that was found, where there is no gold to compare it with.
int list(const std::vector<std::string>& dirs) {
  for (const std::string& dir : dirs) {
    const auto lesson = gold_lesson(dir);
    if (!lesson) {
      std::cerr << "sayings: " << lesson.error().message << "\n";
      return 3;
    }
    fmt::print("{}\n", dir);
    for (const Heard& h : heard_in(*lesson))
      fmt::print("  {} {} \"{}\" at {}\n", h.t, h.what, h.words, h.path);
  }
  return 0;
}

int run(const std::vector<std::string>& dirs, const std::map<std::string, double>& floors,
        bool verbose) {
  std::map<std::string, Tally> tallies;
  for (const std::string& dir : dirs) {
    const auto lesson = gold_lesson(dir);
    const auto rows = read_rows(dir + "/gold-judgements.tsv");
    if (!lesson || !rows) {
      std::cerr << "sayings: " << (lesson ? rows.error() : lesson.error()).message << "\n";
      return 3;
    }
    if (verbose) fmt::print("{}\n", dir);
    compare(*rows, heard_in(*lesson), verbose, tallies);
  }
  bool high_enough = true;
  for (const auto& [sort, t] : tallies) {
    const auto percent = [](std::size_t n, std::size_t of) {
      return of == 0 ? 0.0 : 100.0 * static_cast<double>(n) / static_cast<double>(of);
    };
    const double hit = percent(t.hit, t.gold);
    fmt::print(
        "{:<11} {:3} of {:3} found at their node ({:.1f} %); {:3} of {:3} found are right ({:.1f} "
        "%)\n",
        sort, t.hit, t.gold, hit, t.right, t.found, percent(t.right, t.found));
    const auto floor = floors.find(sort);
    if (floor != floors.end() && hit < floor->second) high_enough = false;
  }
  return high_enough && !tallies.empty() ? 0 : 1;
}

}  // namespace
}  // namespace plyscribe

int main(int argc, char** argv) {
  CLI::App program("Measures judgements and advice against gold-judgements.tsv", "sayings");
  std::vector<std::string> dirs;
  double judgements = 0, advice = 0;
  bool verbose = false, listed = false;
  program.add_option("LESSON_DIR", dirs)->required();
  program.add_option("--judgements", judgements, "Fail below this percentage");
  program.add_option("--advice", advice, "Fail below this percentage");
  program.add_flag("-v", verbose, "Show what was missed and what is extra");
  program.add_flag("--list", listed, "Show all that was found, and measure nothing");
  CLI11_PARSE(program, argc, argv);
  if (listed) return plyscribe::list(dirs);
  return plyscribe::run(dirs, {{"judgements", judgements}, {"advice", advice}}, verbose);
}
