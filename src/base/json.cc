#include "base/json.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::size_t kDeepest = 64;
constexpr std::int64_t kSafeInteger = std::int64_t{1} << 53;
constexpr int kNumberOverflow = 406;  // nlohmann-json's out_of_range for a number

void write_string(const std::string& text, std::string& out) {
  out += '"';
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    switch (c) {
      case '"':
        out += "\\\"";
        break;
      case '\\':
        out += "\\\\";
        break;
      case '\b':
        out += "\\b";
        break;
      case '\f':
        out += "\\f";
        break;
      case '\n':
        out += "\\n";
        break;
      case '\r':
        out += "\\r";
        break;
      case '\t':
        out += "\\t";
        break;
      default:
        if (byte < 0x20)
          out += "\\u00" + to_hex(std::string_view(&c, 1));
        else
          out += c;
    }
  }
  out += '"';
}

// ECMA-262 Number::toString: shortest digits that read back the same, and its rules for where the point goes.
void write_real(double value, std::string& out) {
  if (!std::isfinite(value)) std::abort();
  if (value == 0) {
    out += '0';
    return;
  }
  char buffer[40];
  const auto end =
      std::to_chars(buffer, buffer + sizeof buffer, std::fabs(value), std::chars_format::scientific);
  const std::string_view text(buffer, static_cast<std::size_t>(end.ptr - buffer));
  const auto e = text.find('e');
  std::string digits(text.substr(0, e));
  std::erase(digits, '.');
  const int exponent = std::atoi(std::string(text.substr(e + 1)).c_str());
  const int k = static_cast<int>(digits.size());
  const int n = exponent + 1;  // the value is 0.digits x 10^n
  if (value < 0) out += '-';
  if (k <= n && n <= 21) {
    out += digits + std::string(static_cast<std::size_t>(n - k), '0');
  } else if (0 < n && n <= 21) {
    out += digits.substr(0, static_cast<std::size_t>(n)) + "." + digits.substr(static_cast<std::size_t>(n));
  } else if (-6 < n && n <= 0) {
    out += "0." + std::string(static_cast<std::size_t>(-n), '0') + digits;
  } else {
    out += digits.substr(0, 1);
    if (k > 1) out += "." + digits.substr(1);
    out += std::string("e") + (n > 0 ? "+" : "-") + std::to_string(std::abs(n - 1));
  }
}

// Builds our value from the parser's calls; returning false ends the parse with `why`.
class Builder : public nlohmann::json_sax<nlohmann::json> {
 public:
  Json root;
  std::string why;
  std::size_t fault_at = 0;  // bytes read when the text ceased to be JSON

  bool null() override { return put(Json()); }
  bool boolean(bool value) override { return put(Json(value)); }
  // Of negative literals only.
  bool number_integer(number_integer_t value) override {
    if (value < -kSafeInteger) return put_large_integer(static_cast<double>(value), std::to_string(value));
    return put(Json(std::int64_t{value}));
  }
  bool number_unsigned(number_unsigned_t value) override {
    if (value > kSafeInteger) return put_large_integer(static_cast<double>(value), std::to_string(value));
    return put(Json(static_cast<std::int64_t>(value)));
  }
  bool number_float(number_float_t value, const string_t& literal) override {
    const bool integer = literal.find_first_not_of("-0123456789") == std::string::npos;
    return integer ? put_large_integer(value, literal) : put(Json(value));
  }
  bool string(string_t& value) override { return put(Json(std::move(value))); }
  bool binary(binary_t&) override { return fail("binary value"); }
  bool start_object(std::size_t) override { return open(Json(Json::Object{})); }
  bool key(string_t& name) override {
    const auto [member, fresh] = open_.back()->object()->try_emplace(std::move(name));
    if (!fresh) return fail("name " + canonical_json(Json(member->first)) + " twice in one object");
    next_ = &member->second;
    return true;
  }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(Json(Json::Array{})); }
  bool end_array() override { return close(); }
  bool parse_error(std::size_t position, const std::string&,
                   const nlohmann::detail::exception& error) override {
    if (error.id == kNumberOverflow) return fail("number out of range");
    fault_at = position;
    return fail("not JSON");
  }

 private:
  bool fail(std::string reason) {
    if (why.empty()) why = std::move(reason);
    return false;
  }
  // Where the next value goes: the member just named, the end of the open array, or the root.
  Json* place() {
    if (open_.empty()) return &root;
    if (auto* items = open_.back()->array()) return &items->emplace_back();
    return next_;
  }
  // Beyond 2^53 a reader that has only doubles would see another value, unless the literal is what such a
  // reader itself would write.
  bool put_large_integer(double value, const std::string& literal) {
    std::string back;
    write_real(value, back);
    if (back != literal) return fail("integer beyond 2^53");
    return put(Json(value));
  }
  bool put(Json value) {
    *place() = std::move(value);
    return true;
  }
  // Containers under construction stay where they are: only the innermost one grows, so the pointers hold.
  bool open(Json value) {
    if (open_.size() == kDeepest) return fail("nested deeper than " + std::to_string(kDeepest) + " levels");
    Json* at = place();
    *at = std::move(value);
    open_.push_back(at);
    return true;
  }
  bool close() {
    open_.pop_back();
    return true;
  }

  std::vector<Json*> open_;
  Json* next_ = nullptr;
};

// "line 3, column 12", of the last of so many bytes; columns are characters.
std::string place_in(std::string_view text, std::size_t bytes) {
  const auto read = text.substr(0, std::min(text.size(), std::max<std::size_t>(bytes, 1) - 1));
  const auto line = 1 + std::count(read.begin(), read.end(), '\n');
  const auto begin = read.rfind('\n') + 1;  // 0 where there is none
  const auto column =
      1 + std::count_if(read.begin() + static_cast<std::ptrdiff_t>(begin), read.end(),
                        [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; });
  return "line " + std::to_string(line) + ", column " + std::to_string(column);
}

// UTF-16 order differs from UTF-8 order only where a surrogate pair meets U+E000-U+FFFF.
bool utf16_less(std::string_view a, std::string_view b) {
  const auto [x, y] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
  if (x == a.end() || y == b.end()) return x == a.end() && y != b.end();
  const auto p = static_cast<unsigned char>(*x);
  const auto q = static_cast<unsigned char>(*y);
  const bool p_pair = p >= 0xf0;
  const bool q_pair = q >= 0xf0;
  if (p_pair != q_pair) {
    if (p_pair && q >= 0xee) return true;
    if (q_pair && p >= 0xee) return false;
  }
  return p < q;
}

void write(const Json& value, std::string& out) {
  if (value.is_null()) {
    out += "null";
  } else if (const auto* flag = value.boolean()) {
    out += *flag ? "true" : "false";
  } else if (const auto* integer = value.integer()) {
    if (*integer > kSafeInteger || *integer < -kSafeInteger) std::abort();
    out += std::to_string(*integer);
  } else if (const auto* real = value.real()) {
    write_real(*real, out);
  } else if (const auto* text = value.string()) {
    write_string(*text, out);
  } else if (const auto* items = value.array()) {
    out += '[';
    for (std::size_t i = 0; i < items->size(); ++i) {
      if (i > 0) out += ',';
      write((*items)[i], out);
    }
    out += ']';
  } else {
    const auto& members = *value.object();
    std::vector<const Json::Object::value_type*> order;
    order.reserve(members.size());
    for (const auto& member : members) order.push_back(&member);
    std::sort(order.begin(), order.end(),
              [](const auto* a, const auto* b) { return utf16_less(a->first, b->first); });
    out += '{';
    for (std::size_t i = 0; i < order.size(); ++i) {
      if (i > 0) out += ',';
      write_string(order[i]->first, out);
      out += ':';
      write(order[i]->second, out);
    }
    out += '}';
  }
}

}  // namespace

Json::Json(std::uint64_t value) : value_(static_cast<std::int64_t>(value)) {
  if (value > static_cast<std::uint64_t>(kSafeInteger)) std::abort();
}

const Json* Json::find(std::string_view name) const {
  const auto* members = object();
  if (members == nullptr) return nullptr;
  const auto found = members->find(name);
  return found == members->end() ? nullptr : &found->second;
}

Result<Json> parse_json(std::string_view text) {
  // The parser skips a byte order mark; canonical bytes have none.
  if (text.starts_with("\xef\xbb\xbf"))
    return malformed("JSON starts with a byte order mark", "save the file as UTF-8 without one");
  // The parser takes a NUL for the end of the text.
  if (text.find('\0') != std::string_view::npos) return malformed("JSON holds a NUL byte");
  if (!is_utf8(text)) return malformed("JSON is not UTF-8", "save the file as UTF-8");
  Builder builder;
  if (!nlohmann::json::sax_parse(text, &builder)) {
    if (builder.fault_at == 0) return malformed(builder.why);
    return malformed(builder.why + " at " + place_in(text, builder.fault_at),
                     "look there and just before it: a comma or a quote that is missing, or one too many");
  }
  return std::move(builder.root);
}

std::string canonical_json(const Json& value) {
  std::string out;
  write(value, out);
  return out;
}

}  // namespace counterfoil
