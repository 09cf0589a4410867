#include "sheet/svg.h"

#include <algorithm>
#include <map>

namespace counterfoil {
namespace {

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

}  // namespace

std::string with_stable_ids(std::string_view svg) {
  std::map<std::string, std::size_t, std::less<>> numbers;  // by "surface17"
  std::map<std::string, std::size_t, std::less<>> counts;   // by "surface"
  std::string out;
  out.reserve(svg.size());
  for (std::size_t at = 0; at < svg.size();) {
    // Where an id is given, and where it is used.
    const auto given = svg.find("id=\"", at);
    const auto used = svg.find('#', at);
    const auto next = std::min(given, used);
    if (next == std::string_view::npos) {
      out += svg.substr(at);
      break;
    }
    const auto name = next + (next == given ? 4 : 1);
    auto digits = name;
    while (digits < svg.size() && is_letter(svg[digits])) ++digits;
    auto end = digits;
    while (end < svg.size() && is_digit(svg[end])) ++end;
    out += svg.substr(at, digits - at);
    if (digits > name && end > digits) {
      auto [number, is_new] = numbers.try_emplace(std::string(svg.substr(name, end - name)), 0);
      if (is_new) number->second = ++counts[std::string(svg.substr(name, digits - name))];
      out += std::to_string(number->second);
    } else {
      out += svg.substr(digits, end - digits);
    }
    at = end;
  }
  return out;
}

}  // namespace counterfoil
