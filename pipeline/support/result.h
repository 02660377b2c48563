// Result<T>: a value, or one line that says what went wrong.
//
//   Result<Position> p = parse_fen(text);
//   if (!p) return p.error();        // an Error converts to any Result
//   use(*p);
//
// Errors are for files, flags and notation that cannot be read. Odd speech is data, not an error.
// Cost: one std::variant; no allocation beyond the value and the message.
#ifndef PLYSCRIBE_SUPPORT_RESULT_H_
#define PLYSCRIBE_SUPPORT_RESULT_H_

#include <string>
#include <utility>
#include <variant>

namespace plyscribe {

// What went wrong, for a person to read.
struct Error {
  std::string message;  // one line: file or text, place, what was expected
};

// A T, or the Error that stands in its place.
template <typename T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::move(value)) {}      // NOLINT(google-explicit-constructor)
  Result(Error error) : state_(std::move(error)) {}  // NOLINT(google-explicit-constructor)

  explicit operator bool() const { return state_.index() == 0; }
  const T& operator*() const& { return std::get<0>(state_); }
  T& operator*() & { return std::get<0>(state_); }
  T&& operator*() && { return std::get<0>(std::move(state_)); }
  const T* operator->() const { return &std::get<0>(state_); }
  T* operator->() { return &std::get<0>(state_); }
  const Error& error() const { return std::get<1>(state_); }

 private:
  std::variant<T, Error> state_;
};

}  // namespace plyscribe

#endif  // PLYSCRIBE_SUPPORT_RESULT_H_
