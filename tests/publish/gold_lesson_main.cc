// gold_lesson GOLD.json SEED OUT.pgn OUT.json: publishes a gold tree as if the search had found it
// (seed 0), or a wrong tree made from it. Fails if lesson.json loses anything that is published.
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <string>

#include "lesson/lesson.h"
#include "lesson/lesson_json.h"
#include "publish/outline.h"
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
  const lesson::Lesson built = lesson::build_lesson(gold->decoding, gold->transcript);
  const std::string pgn = publish::write_pgn(built), json = lesson::write_json(built);
  const auto kept = lesson::read_json(json, argv[4]);
  if (!kept) {
    std::cerr << "gold_lesson: " << kept.error().message << "\n";
    return 1;
  }
  if (publish::write_pgn(*kept) != pgn ||
      publish::write_outline(*kept) != publish::write_outline(built)) {
    std::cerr << "gold_lesson: expected the same outputs from the file as from memory\n";
    return 1;
  }
  std::ofstream(argv[3]) << pgn;
  std::ofstream(argv[4]) << json;
  return 0;
}
