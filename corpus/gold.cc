#include "corpus/gold.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <cctype>

#include "board/notation.h"

namespace plyscribe::corpus {
namespace {

std::string lower_bare(const std::string& s) {
  std::string out;
  for (char c : s) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '\'') {
      out.push_back(static_cast<char>(std::tolower(static_cast<unsigned char>(c))));
    }
  }
  return out;
}

std::string slurp(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

// The words of a marked-up lecture, counted as its compiler counts them: the text before, inside and
// after each {words|actions}, split at white space; a mark that follows a tag is a word of its own.
std::vector<std::string> marked_words(const std::string& src) {
  std::vector<std::string> out;
  const std::size_t head = src.find("\n---");
  std::size_t i = head == std::string::npos ? 0 : src.find('\n', head + 1);
  std::string word;
  const auto flush = [&] {
    const bool stamp = word.size() > 3 && word.front() == '[' && word.back() == ']';
    if (!word.empty() && !stamp) out.push_back(word);
    word.clear();
  };
  for (bool actions = false; i < src.size(); ++i) {
    const char c = src[i];
    if (c == '{' || c == '}' || c == '|') {
      if (!actions) flush();
      actions = c == '|';
    } else if (actions) {
      continue;
    } else if (std::isspace(static_cast<unsigned char>(c)) != 0) {
      flush();
    } else {
      word.push_back(c);
    }
  }
  flush();
  return out;
}

}  // namespace

std::string edge_key(const board::Position& before, board::Move m) {
  return board::to_fen_placement(before) + "|" + board::to_uci(m);
}

namespace {

// Throws where the JSON is not what a gold tree is.
Result<Gold> read_gold(const nlohmann::json& j) {
  Gold gold;
  auto start = board::parse_fen(j.at("start_fen").get<std::string>());
  if (!start) return start.error();
  gold.nodes.push_back({-1, board::kNoMove, *start, false});
  for (const auto& e : j.at("edges")) {
    GoldNode node;
    node.parent = e.at("parent").get<int>();
    if (node.parent < 0 || node.parent >= static_cast<int>(gold.nodes.size())) {
      return Error{"a parent that comes later"};
    }
    const board::Position& before = gold.nodes[static_cast<std::size_t>(node.parent)].position;
    auto move = board::parse_uci(before, e.at("uci").get<std::string>());
    if (!move) return move.error();
    node.move = *move;
    node.position = before.after(*move);
    node.unsaid = e.at("unsaid").get<bool>();
    (node.unsaid ? gold.free : gold.spoken).insert(edge_key(before, *move));
    gold.nodes.push_back(node);
  }
  for (const auto& m : j.at("mentions")) {
    gold.mentions.push_back({m.at("first").get<std::uint32_t>(), m.at("last").get<std::uint32_t>() + 1,
                             m.at("node").get<int>(), m.at("kind") == "revisit"});
  }
  for (const auto& m : j.at("ideas")) {
    gold.ideas.push_back({m.at("first").get<std::uint32_t>(), m.at("last").get<std::uint32_t>() + 1});
  }
  if (j.at("side").is_string()) gold.side = j.at("side").get<std::string>();
  board::Position p = board::Position::initial();
  for (const auto& s : j.at("start_moves")) {
    auto m = board::parse_san(p, s.get<std::string>());
    if (!m) return m.error();
    gold.free.insert(edge_key(p, *m));
    gold.start_moves.push_back(*m);
    p = p.after(*m);
  }
  return gold;
}

}  // namespace

Result<Gold> load_gold(const std::string& dir) { return load_gold_file(dir + "/gold.json"); }

Result<Gold> load_gold_file(const std::string& path) {
  const std::filesystem::path dir = std::filesystem::path(path).parent_path();
  try {
    auto gold = read_gold(nlohmann::json::parse(slurp(path)));
    if (!gold) return Error{path + ":1: expected a gold tree: " + gold.error().message};
    gold->name = dir.filename().string();
    gold->script = marked_words(slurp((dir / "lecture.src").string()));
    if (gold->script.empty()) {
      return Error{(dir / "lecture.src").string() + ": expected the marked-up lecture of " + path};
    }
    return gold;
  } catch (const nlohmann::json::exception& e) {
    return Error{path + ":1: expected a gold tree: " + e.what()};
  }
}


// Global alignment with unit costs; words that look alike cost half.
Alignment::Alignment(const Gold& gold, const transcript::Transcript& heard,
                     const hearing::Lattice& lattice)
    : count_(static_cast<std::uint32_t>(lattice.tokens.size())) {
  const std::size_t n = gold.script.size();
  const std::size_t m = heard.words.size();
  std::vector<std::string> a(n);
  std::vector<std::string> b(m);
  for (std::size_t i = 0; i < n; ++i) a[i] = lower_bare(gold.script[i]);
  for (std::size_t j = 0; j < m; ++j) b[j] = lower_bare(heard.words[j].text);
  const auto change = [](const std::string& x, const std::string& y) {
    if (x == y) return 0.0F;
    if (x.empty() || y.empty()) return 1.3F;
    if (x.back() == y.back() && x.size() >= 2 && x[x.size() - 2] == y[y.size() > 1 ? y.size() - 2 : 0]) return 0.6F;
    if (x.back() == y.back() || x.front() == y.front()) return 0.9F;
    return 1.3F;
  };
  // Banded: the texts run side by side.
  const std::size_t width = m + 1;
  std::vector<float> cost((n + 1) * width, 1e9F);
  std::vector<std::uint8_t> step((n + 1) * width, 0);
  cost[0] = 0;
  const std::ptrdiff_t band = 250 + static_cast<std::ptrdiff_t>(n > m ? n - m : m - n);
  for (std::size_t i = 0; i <= n; ++i) {
    const auto middle = static_cast<std::ptrdiff_t>(i * m / std::max<std::size_t>(n, 1));
    const auto from = static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, middle - band));
    const auto to = static_cast<std::size_t>(
        std::min<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(m), middle + band));
    for (std::size_t j = from; j <= to; ++j) {
      float& c = cost[i * width + j];
      std::uint8_t& s = step[i * width + j];
      if (i > 0 && cost[(i - 1) * width + j] + (a[i - 1].empty() ? 0.0F : 0.8F) < c) {
        c = cost[(i - 1) * width + j] + (a[i - 1].empty() ? 0.0F : 0.8F);
        s = 1;
      }
      if (j > 0 && cost[i * width + j - 1] + 0.8F < c) {
        c = cost[i * width + j - 1] + 0.8F;
        s = 2;
      }
      if (i > 0 && j > 0) {
        const float d = cost[(i - 1) * width + j - 1] + change(a[i - 1], b[j - 1]);
        if (d <= c) {
          c = d;
          s = 3;
        }
      }
    }
  }
  std::vector<std::uint32_t> first_token(m + 1, static_cast<std::uint32_t>(lattice.tokens.size()));
  for (std::size_t t = lattice.tokens.size(); t-- > 0;) {
    first_token[lattice.tokens[t].word] = static_cast<std::uint32_t>(t);
  }
  for (std::size_t w = m; w-- > 0;) first_token[w] = std::min(first_token[w], first_token[w + 1]);
  lo_.assign(n, 0);
  hi_.assign(n, 0);
  std::size_t j = m;
  std::size_t i = n;
  std::size_t right = m;  // heard words from here on belong to later script words
  while (i > 0) {
    const std::uint8_t s = step[i * width + j];
    if (s == 2) {
      --j;
      continue;
    }
    const std::size_t end = right;
    if (s == 3) {
      --j;
      lo_[i - 1] = first_token[j];
      hi_[i - 1] = first_token[std::max(j + 1, std::min(end, j + 2))];
      right = j;
    } else {
      lo_[i - 1] = first_token[j];
      hi_[i - 1] = first_token[std::min(m, right)];
    }
    --i;
  }
}

Span Alignment::tokens(std::uint32_t first, std::uint32_t last) const {
  Span out{std::min(lo_[first], count_ - 1), std::min(hi_[last - 1], count_)};
  if (out.hi <= out.lo) out.hi = out.lo + 1;
  return out;
}

}  // namespace plyscribe::corpus
