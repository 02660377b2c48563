// A fuzz target: what must hold of one part of the program, whatever bytes it is given.
//
//   find_target("fen")->run(bytes);
//
// run returns when all holds, and else prints what did not and aborts. Two programs feed the
// targets: fuzz_main.cc, the fuzzer (clang's libFuzzer, which learns from the coverage), and
// replay_main.cc, which needs no clang: it runs files, and files with random damage.
#ifndef PLYSCRIBE_TESTS_FUZZ_TARGET_H_
#define PLYSCRIBE_TESTS_FUZZ_TARGET_H_

#include <span>
#include <string>
#include <string_view>

namespace plyscribe::fuzz {

struct Target {
  std::string_view name;
  std::size_t most_bytes;  // of one input: longer ones tell nothing new, and take their time
  void (*run)(std::string_view bytes);
};

std::span<const Target> targets();
const Target* find_target(std::string_view name);  // null if there is none

// Prints what should have held, and aborts, unless it does.
void expect(bool holds, std::string_view what);
void expect_line(std::string_view message);  // of an error: one line, not empty

// One of each file of this folder; entered in targets.cc.
void read_text(std::string_view bytes);
void read_srt(std::string_view bytes);
void read_vtt(std::string_view bytes);
void read_ttml(std::string_view bytes);
void read_ctm(std::string_view bytes);
void read_json(std::string_view bytes);
void read_any(std::string_view bytes);
void fen(std::string_view bytes);
void san(std::string_view bytes);
void pgn(std::string_view bytes);
void game_file(std::string_view bytes);
void lattice(std::string_view bytes);
void decode(std::string_view bytes);
void pins(std::string_view bytes);
void lesson(std::string_view bytes);
void request(std::string_view bytes);
void server(std::string_view bytes);

}  // namespace plyscribe::fuzz

#endif  // PLYSCRIBE_TESTS_FUZZ_TARGET_H_
