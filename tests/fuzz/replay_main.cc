// Runs targets on files, without a fuzzer:
//
//   replay FOUND_FOLDER SEEDS_FOLDER ROUNDS
//
// Of each target: every file in FOUND_FOLDER/TARGET (each was a finding once) and in
// SEEDS_FOLDER/TARGET as it is; then ROUNDS inputs that are random bytes or seeds with damage. The
// randomness is fixed, so that what fails fails again; a failure names the input, written beside.
#include <algorithm>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#include "tests/fuzz/target.h"

namespace {

namespace fs = std::filesystem;
using plyscribe::fuzz::Target;

std::vector<std::string> files_in(const fs::path& folder) {
  std::vector<fs::path> paths;
  if (fs::is_directory(folder)) {
    for (const auto& entry : fs::directory_iterator(folder)) paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  std::vector<std::string> out;
  for (const fs::path& path : paths) {
    std::ifstream in(path, std::ios::binary);
    out.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
  }
  return out;
}

// Some bytes changed, dropped, doubled or brought in from another seed.
std::string damaged(std::mt19937& random, const std::vector<std::string>& seeds) {
  std::string text = seeds.empty() ? "" : seeds[random() % seeds.size()];
  if (random() % 8 == 0) text.clear();
  for (std::size_t changes = 1 + random() % 6; changes > 0; --changes) {
    const std::size_t at = random() % (text.size() + 1);
    switch (random() % 5) {
      case 0:
        text.insert(at, 1, static_cast<char>(random() % 256));
        break;
      case 1:
        text.erase(at, random() % 9);
        break;
      case 2:
        if (at < text.size()) text[at] = static_cast<char>(random() % 256);
        break;
      case 3:
        text.insert(at, text.substr(text.empty() ? 0 : random() % text.size(), random() % 17));
        break;
      default:
        if (!seeds.empty()) {
          const std::string& other = seeds[random() % seeds.size()];
          text.insert(at, other.substr(other.empty() ? 0 : random() % other.size(), random() % 33));
        }
    }
  }
  return text;
}

std::string running;  // the input, for whoever looks into a failure

void tell(int) {
  std::ofstream("fuzz-failure", std::ios::binary) << running;
  std::fprintf(stderr, "the input is in ./fuzz-failure\n");
  std::_Exit(1);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) {
    std::fprintf(stderr, "expected: replay FOUND_FOLDER SEEDS_FOLDER ROUNDS [TARGET]\n");
    return 2;
  }
  std::signal(SIGABRT, tell);
  std::signal(SIGSEGV, tell);
  for (const Target& target : plyscribe::fuzz::targets()) {
    if (argc > 4 && target.name != argv[4]) continue;
    const auto found = files_in(fs::path(argv[1]) / target.name);
    auto seeds = files_in(fs::path(argv[2]) / target.name);
    if (seeds.empty()) {
      std::fprintf(stderr, "expected seeds in %s/%s\n", argv[2], std::string(target.name).c_str());
      return 1;
    }
    for (const std::string& text : found) target.run(running = text);
    for (const std::string& text : seeds) target.run(running = text);
    std::mt19937 random(20261127);
    // The targets that decode or talk to a server take hundreds of times as long as the others.
    const bool slow = target.name == "decode" || target.name == "server" ||
                      target.name == "request";
    const int rounds = std::atoi(argv[3]) / (slow ? 200 : 1);
    for (int round = 0; round < rounds; ++round) {
      running = damaged(random, seeds);
      if (running.size() > target.most_bytes) running.resize(target.most_bytes);
      target.run(running);
    }
    std::printf("%-10s %zu found, %zu seeds, %d damaged\n", std::string(target.name).c_str(),
                found.size(), seeds.size(), rounds);
  }
  return 0;
}
