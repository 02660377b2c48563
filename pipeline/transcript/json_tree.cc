#include "transcript/json_tree.h"

#include <unicode/utf16.h>
#include <unicode/utf8.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <iterator>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

namespace plyscribe::transcript {
namespace {

// Hands the parser bytes and tells how far it has read. A string has just been read up to its
// closing quote when the parser reports it, which is what gives its place.
struct Cursor {
  using iterator_category = std::input_iterator_tag;
  using value_type = char;
  using difference_type = std::ptrdiff_t;
  using pointer = const char*;
  using reference = const char&;

  const char* at = nullptr;
  const char** reached = nullptr;

  reference operator*() const { return *at; }
  Cursor& operator++() {
    *reached = ++at;
    return *this;
  }
  Cursor operator++(int) {
    Cursor before = *this;
    ++*this;
    return before;
  }
  bool operator==(const Cursor& o) const { return at == o.at; }
  bool operator!=(const Cursor& o) const { return at != o.at; }
};

class TreeMaker {
 public:
  using number_integer_t = nlohmann::json::number_integer_t;
  using number_unsigned_t = nlohmann::json::number_unsigned_t;
  using number_float_t = nlohmann::json::number_float_t;
  using string_t = nlohmann::json::string_t;
  using binary_t = nlohmann::json::binary_t;

  TreeMaker(std::string_view text, const char* const& reached) : text_(text), reached_(reached) {}

  bool null() { return leaf(JsonValue::Kind::kNull, 0); }
  bool boolean(bool value) { return leaf(JsonValue::Kind::kBool, value ? 1 : 0); }
  bool number_integer(number_integer_t value) {
    return leaf(JsonValue::Kind::kNumber, static_cast<double>(value));
  }
  bool number_unsigned(number_unsigned_t value) {
    return leaf(JsonValue::Kind::kNumber, static_cast<double>(value));
  }
  bool number_float(number_float_t value, const string_t&) {
    return leaf(JsonValue::Kind::kNumber, value);
  }
  bool binary(binary_t&) { return false; }
  bool string(string_t&) {
    leaf(JsonValue::Kind::kString, 0);
    last_->raw = last_string();
    return true;
  }
  bool key(string_t& name) {
    key_.clear();
    for (const char c : name) {
      if (c != '_' && c != '-')
        key_ += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
    return true;
  }
  bool start_object(std::size_t) { return open(JsonValue::Kind::kObject); }
  bool start_array(std::size_t) { return open(JsonValue::Kind::kArray); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }
  bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception& e) {
    problem_ = e.what();
    if (const std::size_t at = problem_.find(": "); at != std::string::npos)
      problem_.erase(0, at + 2);
    if (problem_.size() > 200) problem_.resize(200);
    std::replace_if(
        problem_.begin(), problem_.end(),
        [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
    return false;
  }

  std::size_t offset() const { return static_cast<std::size_t>(reached_ - text_.data()); }
  const std::string& problem() const { return problem_; }
  bool too_deep() const { return too_deep_; }
  JsonValue take_root() { return std::move(root_); }

 private:
  JsonValue& add(JsonValue::Kind kind) {
    JsonValue value;
    value.kind = kind;
    value.key = std::exchange(key_, {});
    value.raw.begin = value.raw.end = static_cast<std::uint32_t>(offset());
    if (open_.empty()) {
      root_ = std::move(value);
      return root_;
    }
    // A parent's items move only while no child is open, so the pointers in open_ stay good.
    open_.back()->items.push_back(std::move(value));
    return open_.back()->items.back();
  }
  bool leaf(JsonValue::Kind kind, double number) {
    last_ = &add(kind);
    last_->number = number;
    return true;
  }
  bool open(JsonValue::Kind kind) {
    if (open_.size() >= kMaxJsonDepth) {
      too_deep_ = true;
      return false;
    }
    open_.push_back(&add(kind));
    return true;
  }
  bool close() {
    open_.pop_back();
    return true;
  }

  // From the quote just read back to the one that opened the string: the nearest that has no
  // odd number of backslashes before it.
  Range last_string() const {
    const std::size_t end = offset() - 1;
    std::size_t quote = end;
    while (quote > 0) {
      --quote;
      if (text_[quote] != '"') continue;
      std::size_t slash = quote;
      while (slash > 0 && text_[slash - 1] == '\\') --slash;
      if ((quote - slash) % 2 == 0) break;
    }
    return {static_cast<std::uint32_t>(quote + 1), static_cast<std::uint32_t>(end)};
  }

  std::string_view text_;
  const char* const& reached_;
  JsonValue root_;
  JsonValue* last_ = nullptr;
  std::vector<JsonValue*> open_;
  std::string key_, problem_;
  bool too_deep_ = false;
};

// Four hexadecimal digits at s[i].
std::optional<UChar32> hex4(std::string_view s, std::size_t i) {
  if (i + 4 > s.size()) return std::nullopt;
  UChar32 value = 0;
  for (std::size_t k = i; k < i + 4; ++k) {
    const auto c = static_cast<unsigned char>(s[k]);
    if (!std::isxdigit(c)) return std::nullopt;
    value = value * 16 + (std::isdigit(c) ? c - '0' : std::tolower(c) - 'a' + 10);
  }
  return value;
}

}  // namespace

const JsonValue* JsonValue::member(std::string_view name) const {
  if (!is_object()) return nullptr;
  for (const JsonValue& v : items) {
    if (v.key == name) return &v;
  }
  return nullptr;
}

Result<JsonValue> parse_json(const Source& source) {
  const std::string_view text = source.text();
  std::vector<JsonValue> values;
  const char* reached = text.data();
  const char* const end = text.data() + text.size();
  const auto blank = [](char c) { return c == ' ' || (c >= '\t' && c <= '\r'); };
  for (reached = std::find_if_not(reached, end, blank); reached != end;
       reached = std::find_if_not(reached, end, blank)) {
    TreeMaker maker(text, reached);
    if (!nlohmann::json::sax_parse(Cursor{reached, &reached}, Cursor{end, &reached}, &maker,
                                   nlohmann::json::input_format_t::json, false)) {
      if (maker.too_deep())
        return source.expected(maker.offset(), "JSON nested less than 100 deep");
      return source.expected(maker.offset(), "valid JSON, found a " + maker.problem());
    }
    values.push_back(maker.take_root());
    if (!values.back().is_array() && !values.back().is_object()) {
      return source.expected(maker.offset(), "a JSON object or array");
    }
  }
  if (values.size() == 1) return std::move(values.front());
  JsonValue all;
  all.kind = JsonValue::Kind::kArray;
  all.items = std::move(values);
  return all;
}

MappedText json_string(const Source& source, const JsonValue& value) {
  MappedText out;
  const std::string_view s = source.text();
  for (std::size_t i = value.raw.begin; i < value.raw.end;) {
    const std::size_t slash =
        i + std::min<std::size_t>(s.substr(i, value.raw.end - i).find('\\'), value.raw.end - i);
    out.append_verbatim(s, i, slash);
    i = slash;
    if (i + 1 >= value.raw.end) break;
    std::size_t next = i + 2;
    UChar32 c = 0;
    switch (s[i + 1]) {
      case 'n':
      case 'r':
      case 't':
      case 'f':
      case 'b':
        c = ' ';
        break;
      case 'u':
        c = hex4(s, i + 2).value_or(0xFFFD);
        next = i + 6;
        if (U16_IS_LEAD(c) && s.substr(next, 2) == "\\u") {
          const UChar32 trail = hex4(s, next + 2).value_or(0);
          if (U16_IS_TRAIL(trail)) {
            c = U16_GET_SUPPLEMENTARY(c, trail);
            next += 6;
          }
        }
        if (U_IS_SURROGATE(c) || c < 0x20) c = 0xFFFD;
        break;
      default:
        c = static_cast<unsigned char>(s[i + 1]);
    }
    std::array<char, U8_MAX_LENGTH> bytes{};
    std::size_t n = 0;
    U8_APPEND_UNSAFE(bytes.data(), n, c);
    out.append({bytes.data(), n},
               {static_cast<std::uint32_t>(i), static_cast<std::uint32_t>(next)});
    i = next;
  }
  return out;
}

}  // namespace plyscribe::transcript
