// JSON values, strict reading, and the canonical form of RFC 8785 (JCS), which events are hashed in.
// Reading refuses what two parsers could take differently: duplicate names, invalid UTF-8, a byte order mark,
// trailing text, nesting over 64 levels, numbers out of range.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/result.h"

namespace counterfoil {

class Json {
 public:
  using Array = std::vector<Json>;
  using Object = std::map<std::string, Json, std::less<>>;

  Json() = default;  // null
  Json(bool value) : value_(value) {}
  Json(std::int64_t value) : value_(value) {}
  Json(int value) : value_(std::int64_t{value}) {}
  Json(std::uint64_t value);  // aborts above 2^53
  Json(double value) : value_(value) {}
  Json(std::string value) : value_(std::move(value)) {}
  Json(std::string_view value) : value_(std::string(value)) {}
  Json(const char* value) : value_(std::string(value)) {}
  Json(Array value) : value_(std::move(value)) {}
  Json(Object value) : value_(std::move(value)) {}

  bool is_null() const { return value_.index() == 0; }
  // Null when the value is of another type.
  const bool* boolean() const { return std::get_if<bool>(&value_); }
  const std::int64_t* integer() const { return std::get_if<std::int64_t>(&value_); }
  const double* real() const { return std::get_if<double>(&value_); }
  const std::string* string() const { return std::get_if<std::string>(&value_); }
  const Array* array() const { return std::get_if<Array>(&value_); }
  const Object* object() const { return std::get_if<Object>(&value_); }
  Array* array() { return std::get_if<Array>(&value_); }
  Object* object() { return std::get_if<Object>(&value_); }
  // The member of that name; null when this is no object or has none.
  const Json* find(std::string_view name) const;

  friend bool operator==(const Json&, const Json&) = default;

 private:
  std::variant<std::monostate, bool, std::int64_t, double, std::string, Array, Object> value_;
};

// An integer literal of at most 2^53 either way becomes an integer, every other number a double; a larger
// integer literal only if it is the form that canonical_json gives that double.
Result<Json> parse_json(std::string_view text);

// The bytes of RFC 8785: no white space, names sorted by UTF-16 code units, numbers as ECMAScript writes
// them. Integers beyond 2^53 would change in another reader; aborts on them and on values that are not
// finite, which our own writers never produce and parse_json never gives. Precondition: texts are UTF-8.
std::string canonical_json(const Json& value);

}  // namespace counterfoil
