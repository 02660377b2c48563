// rules_dump: what our rules say about positions, one per line, for comparison with other programs.
//
// Input, one request a line: a FEN, or a line of UCI moves from the initial position, or both:
//   4k3/8/8/8/8/8/4P3/4K3 w - - 0 1
//   e2e4 e7e5
//   4k3/8/8/8/8/8/4P3/4K3 w - - 0 1 moves e2e4 e8d7
// Output, for the start of the request and after each of its moves: the FEN, then every legal move
// as "uci san", sorted by bytes; fields are parted by tabs.
//   4k3/8/8/8/8/8/4P3/4K3 w - - 0 1<TAB>e1d1 Kd1<TAB>e1d2 Kd2<TAB>...
// A request that cannot be read ends the program with status 1.
#include <algorithm>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

#include "board/notation.h"
#include "board/position.h"
#include "support/result.h"

namespace {

using namespace plyscribe;
using namespace plyscribe::board;

void dump(const Position& p) {
  MoveList moves;
  p.legal_moves(moves);
  std::vector<std::string> lines;
  for (Move m : moves) lines.push_back(to_uci(m) + ' ' + to_san(p, m));
  std::sort(lines.begin(), lines.end());
  std::cout << to_fen(p);
  for (const std::string& line : lines) std::cout << '\t' << line;
  std::cout << '\n';
}

// Nothing to say, or what went wrong.
std::string answer(const std::string& request) {
  constexpr const char* kMoves = " moves ";
  std::string moves = request;
  Position p = Position::initial();
  if (request.find('/') != std::string::npos) {
    const std::size_t at = std::min(request.find(kMoves), request.size());
    const Result<Position> read = parse_fen(request.substr(0, at));
    if (!read) return read.error().message;
    p = *read;
    moves = at == request.size() ? "" : request.substr(at + std::string(kMoves).size());
  }
  dump(p);
  std::istringstream words(moves);
  for (std::string word; words >> word;) {
    const Result<Move> m = parse_uci(p, word);
    if (!m) return m.error().message;
    p = p.after(*m);
    dump(p);
  }
  return "";
}

}  // namespace

int main() {
  std::ios::sync_with_stdio(false);
  for (std::string request; std::getline(std::cin, request);) {
    if (const std::string wrong = answer(request); !wrong.empty()) {
      std::cout.flush();
      std::cerr << "rules_dump: " << wrong << '\n';
      return 1;
    }
  }
}
