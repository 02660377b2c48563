// tree LESSON: the moves of a lesson, each behind the one before it, with the second it was said.
//
//      33.50  e4
//      34.20    e5
//      65.10    c5
#include <plyscribe.h>

#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

namespace {

using plyscribe::lesson::Lesson;
using plyscribe::lesson::NodeId;

// What follows the node. Lessons are at most some hundred moves deep.
void print_below(const Lesson& lesson, NodeId parent, int depth) {
  for (NodeId id = parent + 1; id < static_cast<NodeId>(lesson.nodes.size()); ++id) {
    const auto& node = lesson.nodes[static_cast<std::size_t>(id)];
    if (node.parent != parent) continue;
    std::printf("%9.2f  %*s%s\n", node.t, 2 * depth, "", node.san.c_str());
    print_below(lesson, id, depth + 1);
  }
}

}  // namespace

int main(int argc, char** argv) {
  namespace ply = plyscribe;
  if (argc != 2) {
    std::fprintf(stderr, "tree: expected the transcript of a lesson\n");
    return 2;
  }
  std::ifstream file(argv[1], std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(file), {}};

  const auto transcript = ply::transcript::read_transcript(bytes, argv[1]);
  if (!transcript) {
    std::fprintf(stderr, "tree: %s\n", transcript.error().message.c_str());
    return 3;
  }
  const auto decoding = ply::resolve::decode(*transcript, {});
  if (!decoding) {
    std::fprintf(stderr, "tree: %s: %s\n", argv[1], decoding.error().message.c_str());
    return 3;
  }
  print_below(ply::lesson::build_lesson(*decoding, *transcript), 0, 0);
  return 0;
}
