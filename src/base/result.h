// A value or the reason why there is none. Everything that input can cause is a Result; a bug aborts.
// Not std::expected: neither g++ 12 nor clang 14 has it in C++20 mode.
#pragma once

#include <cstdlib>
#include <string>
#include <utility>
#include <variant>

namespace counterfoil {

// What kind of failure it is, and so what the program's exit code becomes (cli/exit_code.h).
enum class ErrorKind {
  refused,     // the answer is no: understood, and not done
  malformed,   // the input or the command is not of the right form
  unreadable,  // a file or the store cannot be read or written
};

struct Error {
  ErrorKind kind = ErrorKind::malformed;
  std::string message;  // lower case, no full stop: "number A7K2 is too short"
  std::string hint;     // what to do next, one sentence, may be empty
};

inline Error refused(std::string message, std::string hint = {}) {
  return {ErrorKind::refused, std::move(message), std::move(hint)};
}
inline Error malformed(std::string message, std::string hint = {}) {
  return {ErrorKind::malformed, std::move(message), std::move(hint)};
}
inline Error unreadable(std::string message, std::string hint = {}) {
  return {ErrorKind::unreadable, std::move(message), std::move(hint)};
}

template <typename T>
class [[nodiscard]] Result {
 public:
  Result(T value) : held_(std::in_place_index<0>, std::move(value)) {}
  Result(Error error) : held_(std::in_place_index<1>, std::move(error)) {}

  explicit operator bool() const { return held_.index() == 0; }
  // Reading the side that is not there is a bug, and aborts.
  T& operator*() & { return value(); }
  const T& operator*() const& { return value(); }
  T&& operator*() && { return std::move(value()); }
  T* operator->() { return &value(); }
  const T* operator->() const { return &value(); }
  const Error& error() const {
    if (held_.index() != 1) std::abort();
    return *std::get_if<1>(&held_);
  }

 private:
  T& value() {
    if (held_.index() != 0) std::abort();
    return *std::get_if<0>(&held_);
  }
  const T& value() const {
    if (held_.index() != 0) std::abort();
    return *std::get_if<0>(&held_);
  }
  std::variant<T, Error> held_;
};

template <>
class [[nodiscard]] Result<void> {
 public:
  Result() = default;
  Result(Error error) : error_(std::move(error)), failed_(true) {}

  explicit operator bool() const { return !failed_; }
  const Error& error() const {
    if (!failed_) std::abort();
    return error_;
  }

 private:
  Error error_;
  bool failed_ = false;
};

}  // namespace counterfoil
