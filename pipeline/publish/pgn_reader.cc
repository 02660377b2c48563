#include "publish/pgn_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>

#include "board/notation.h"

namespace plyscribe::publish {
namespace {

enum class Kind : std::uint8_t {
  kEnd,
  kTag,      // name and value
  kComment,  // text without its braces or semicolon
  kOpen,
  kClose,
  kNag,  // digits behind $, or marks such as "!?"
  kResult,
  kSymbol,  // anything that should be a move
};

struct Token {
  Kind kind = Kind::kEnd;
  std::string text, value;
  std::size_t line = 1;
};

bool is_space(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_mark(char c) { return c == '!' || c == '?'; }

// Symbol characters of section 7, without those of results ("/") and with "@" and "~" left out.
bool in_symbol(char c) {
  return is_letter(c) || is_digit(c) || c == '_' || c == '+' || c == '#' || c == '=' || c == ':' ||
         c == '-';
}

constexpr std::string_view kEnPassant = "e.p.";
constexpr std::array<std::string_view, 3> kResults = {"1-0", "0-1", "1/2-1/2"};

// Section 10: the six marks as numeric annotation glyphs.
int nag_of_marks(std::string_view marks) {
  constexpr std::array<std::string_view, 7> kMarks = {"", "!", "?", "!!", "??", "!?", "?!"};
  const auto it = std::find(kMarks.begin(), kMarks.end(), marks);
  return it == kMarks.end() ? 0 : static_cast<int>(it - kMarks.begin());
}

class Tokens {
 public:
  Tokens(std::string_view text, std::string_view name) : text_(text), name_(name) {
    if (text_.substr(0, 3) == "\xEF\xBB\xBF") at_ = 3;
    line_begin_ = at_;
  }

  std::size_t line() const { return line_; }
  Error error(std::size_t line, std::string_view expected) const {
    return {fmt::format("{}:{}: expected {}", name_, line, expected)};
  }

  Result<Token> next() {
    skip_blank();
    Token token;
    token.line = line_;
    if (at_ == text_.size()) return token;
    const char c = text_[at_];
    if (c == '[') return tag(token);
    if (c == '{') return brace_comment(token);
    if (c == ';') {
      token.kind = Kind::kComment;
      ++at_;
      token.text = take_while([](char d) { return d != '\n' && d != '\r'; });
      return token;
    }
    if (c == '(' || c == ')') {
      token.kind = c == '(' ? Kind::kOpen : Kind::kClose;
      ++at_;
      return token;
    }
    if (c == '$') {
      token.kind = Kind::kNag;
      ++at_;
      token.text = take_while(is_digit);
      if (token.text.empty() || token.text.size() > 3) return error(line_, "a number behind $");
      return token;
    }
    if (is_mark(c)) {
      token.kind = Kind::kNag;
      token.text = take_while(is_mark);
      return token;
    }
    if (c == '*') {
      token.kind = Kind::kResult;
      token.text = "*";
      ++at_;
      return token;
    }
    for (const std::string_view result : kResults) {
      const std::size_t end = at_ + result.size();
      if (text_.substr(at_, result.size()) == result &&
          (end == text_.size() || !in_symbol(text_[end]))) {
        token.kind = Kind::kResult;
        token.text = result;
        at_ = end;
        return token;
      }
    }
    if (in_symbol(c)) {
      token.kind = Kind::kSymbol;
      token.text = take_while(in_symbol);
      return token;
    }
    return error(line_, fmt::format("a move, found '{}'", printable(c)));
  }

 private:
  static std::string printable(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x20 && byte < 0x7F ? std::string(1, c) : fmt::format("byte {:02x}", byte);
  }

  template <typename Wanted>
  std::string take_while(Wanted wanted) {
    const std::size_t begin = at_;
    while (at_ < text_.size() && wanted(text_[at_])) ++at_;
    return std::string(text_.substr(begin, at_ - begin));
  }

  void advance() {
    if (text_[at_++] == '\n') {
      ++line_;
      line_begin_ = at_;
    }
  }

  // Blanks, move numbers with their dots, "e.p.", and lines escaped by % in the first column
  // (section 6).
  void skip_blank() {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '%' && at_ == line_begin_) {
        while (at_ < text_.size() && text_[at_] != '\n') ++at_;
      } else if (is_space(c) || c == '.') {
        advance();
      } else if (is_digit(c)) {
        std::size_t end = at_;
        while (end < text_.size() && is_digit(text_[end])) ++end;
        if (end < text_.size() && (text_[end] == '-' || text_[end] == '/')) {
          return;  // a result, or castling with zeros
        }
        at_ = end;
      } else if (text_.substr(at_, kEnPassant.size()) == kEnPassant) {
        at_ += kEnPassant.size();
      } else {
        return;
      }
    }
  }

  Result<Token> brace_comment(Token token) {
    token.kind = Kind::kComment;
    ++at_;
    while (at_ < text_.size() && text_[at_] != '}') {
      const char c = text_[at_];
      if (!is_space(c)) {
        token.text += c;
      } else if (!token.text.empty() && token.text.back() != ' ') {
        token.text += ' ';
      }
      advance();
    }
    if (at_ == text_.size()) return error(token.line, "} to end the comment begun here");
    ++at_;
    if (!token.text.empty() && token.text.back() == ' ') token.text.pop_back();
    return token;
  }

  Result<Token> tag(Token token) {
    token.kind = Kind::kTag;
    ++at_;
    const auto blanks = [this] { take_while([](char c) { return c == ' ' || c == '\t'; }); };
    blanks();
    token.text = take_while([](char c) { return is_letter(c) || is_digit(c) || c == '_'; });
    blanks();
    if (token.text.empty() || at_ == text_.size() || text_[at_] != '"') {
      return error(line_, "a tag pair [Name \"value\"]");
    }
    ++at_;
    while (at_ < text_.size() && text_[at_] != '"' && text_[at_] != '\n') {
      if (text_[at_] == '\\' && at_ + 1 < text_.size() && text_[at_ + 1] != '\n') ++at_;
      token.value += text_[at_++];
    }
    if (at_ == text_.size() || text_[at_] != '"') return error(line_, "\" to end the tag's value");
    ++at_;
    blanks();
    if (at_ == text_.size() || text_[at_] != ']') return error(line_, "] to end the tag pair");
    ++at_;
    return token;
  }

  std::string_view text_, name_;
  std::size_t at_ = 0, line_ = 1, line_begin_ = 0;
};

// One game, taken token by token.
class GameReader {
 public:
  explicit GameReader(const Tokens& tokens) : tokens_(tokens) {}

  bool has_movetext() const { return !game_.nodes.empty(); }
  bool is_empty() const { return game_.tags.empty() && !has_movetext(); }

  std::optional<Error> take(Token token) {
    if (token.kind == Kind::kTag) {
      game_.tags.emplace_back(std::move(token.text), std::move(token.value));
      return std::nullopt;
    }
    if (!has_movetext()) {
      if (auto error = set_up(token.line)) return error;
    }
    switch (token.kind) {
      case Kind::kComment:
        (fresh_ ? early_comments_ : last().comments).push_back(std::move(token.text));
        break;
      case Kind::kNag:
        add_nag(token.text);
        break;
      case Kind::kOpen:
        if (last_ == 0 || fresh_) return tokens_.error(token.line, "a move before (");
        returns_.push_back({last_, token.line});
        last_ = last().parent;
        fresh_ = true;
        break;
      case Kind::kClose:
        if (returns_.empty()) return tokens_.error(token.line, "( before )");
        last_ = returns_.back().node;
        returns_.pop_back();
        fresh_ = false;
        early_comments_.clear();
        break;
      case Kind::kSymbol:
        return play(token);
      case Kind::kResult:
        game_.result = std::move(token.text);
        break;
      case Kind::kTag:
      case Kind::kEnd:
        break;
    }
    return std::nullopt;
  }

  Result<PgnGame> finish(std::size_t line) {
    if (!returns_.empty()) {
      return tokens_.error(returns_.back().line, ") to end the variation begun here");
    }
    if (!has_movetext()) {
      if (auto error = set_up(line)) return *error;
    }
    return std::move(game_);
  }

 private:
  struct Return {
    std::int32_t node;
    std::size_t line;
  };

  PgnNode& last() { return game_.nodes[static_cast<std::size_t>(last_)]; }

  std::optional<Error> set_up(std::size_t line) {
    PgnNode root;
    root.position = board::Position::initial();
    if (const std::string_view fen = game_.tag("FEN"); !fen.empty()) {
      auto p = board::parse_fen(fen);
      if (!p) return tokens_.error(line, "a position in the tag FEN: " + p.error().message);
      root.position = *p;
    }
    game_.nodes.push_back(std::move(root));
    return std::nullopt;
  }

  void add_nag(const std::string& text) {
    const int nag = is_digit(text[0]) ? std::stoi(text) : nag_of_marks(text);
    if (nag != 0) last().nags.push_back(nag);
  }

  std::optional<Error> play(const Token& token) {
    auto move = board::parse_san(last().position, token.text);
    if (!move) return tokens_.error(token.line, "a legal move: " + move.error().message);
    PgnNode node;
    node.parent = last_;
    node.move = *move;
    node.position = last().position.after(*move);
    node.comments = std::exchange(early_comments_, {});
    last_ = static_cast<std::int32_t>(game_.nodes.size());
    game_.nodes.push_back(std::move(node));
    fresh_ = false;
    return std::nullopt;
  }

  const Tokens& tokens_;
  PgnGame game_;
  std::int32_t last_ = 0;                    // the last move of the line that is being read
  bool fresh_ = false;                       // a variation was opened and has no move yet
  std::vector<std::string> early_comments_;  // in it, before that move
  std::vector<Return> returns_;              // one for each open bracket
};

}  // namespace

std::string_view PgnGame::tag(std::string_view name) const {
  for (const auto& [key, value] : tags) {
    if (key == name) return value;
  }
  return "";
}

Result<std::vector<PgnGame>> read_pgn(std::string_view text, std::string_view name) {
  std::vector<PgnGame> games;
  Tokens tokens(text, name);
  for (;;) {
    GameReader reader(tokens);
    for (;;) {
      const Tokens before = tokens;
      auto token = tokens.next();
      if (!token) return token.error();
      const bool at_end = token->kind == Kind::kEnd;
      if (at_end && reader.is_empty()) return games;
      const bool next_game = token->kind == Kind::kTag && reader.has_movetext();
      if (next_game) tokens = before;  // the tag belongs to the game that follows
      if (!at_end && !next_game) {
        const bool is_result = token->kind == Kind::kResult;
        if (auto error = reader.take(std::move(*token))) return *error;
        if (!is_result) continue;
      }
      auto game = reader.finish(tokens.line());
      if (!game) return game.error();
      // Comments between two games are no game.
      if (!game->tags.empty() || game->nodes.size() > 1 || !game->result.empty()) {
        games.push_back(std::move(*game));
      }
      break;
    }
  }
}

}  // namespace plyscribe::publish
