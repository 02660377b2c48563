// gold_lesson GOLD.json SEED OUT.pgn OUT.json: publishes a gold tree as if the search had found it
// (seed 0), or a wrong tree made from it.
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <string>

#include "lesson/lesson.h"
#include "lesson/lesson_json.h"
#include "publish/pgn.h"
#include "tests/publish/gold_decoding.h"

int main(int argc, char** argv) {
  using namespace plyscribe;
  if (argc != 5) {
    std::cerr << "usage: gold_lesson GOLD.json SEED OUT.pgn OUT.json\n";
    return 2;
  }
  auto gold = tests::read_gold_decoding(argv[1]);
  if (!gold) {
    std::cerr << "gold_lesson: " << gold.error().message << "\n";
    return 3;
  }
  const auto seed = static_cast<std::uint32_t>(std::stoul(argv[2]));
  if (seed != 0) tests::perturb(*gold, seed);
  const lesson::Lesson lesson = lesson::build_lesson(gold->decoding, gold->transcript);
  std::ofstream(argv[3]) << publish::write_pgn(lesson);
  std::ofstream(argv[4]) << lesson::write_json(lesson);
  return 0;
}
