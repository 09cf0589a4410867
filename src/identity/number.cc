#include "identity/number.h"

#include <algorithm>
#include <cstdlib>

#include "identity/check_pair.h"
#include "identity/slip.h"
#include "identity/spelling.h"

namespace counterfoil {
namespace {

constexpr std::size_t kBodyLength = 8;

bool all_used(std::string_view text) { return std::all_of(text.begin(), text.end(), is_number_character); }

}  // namespace

Result<Number> Number::parse(std::string_view typed) {
  if (auto number = from_exact(fold(typed))) return *std::move(number);
  return explain_slip(typed);
}

std::optional<Number> Number::from_exact(std::string_view text) {
  if (text.size() != kNumberLength || !all_used(text)) return std::nullopt;
  if (check_pair(text.substr(0, kBodyLength)) != text.substr(kBodyLength)) return std::nullopt;
  return Number(std::string(text));
}

std::string Number::grouped() const { return in_groups(text_); }

std::optional<Number> number_at(std::string_view prefix, std::uint32_t counter) {
  if (prefix.size() != kPrefixLength || !all_used(prefix) || counter == 0 || counter >= kCounterEnd)
    std::abort();
  std::string text(prefix);
  const std::uint32_t serial = counter * kScatter % kCounterEnd;
  for (int shift = 25; shift >= 0; shift -= 5) text += kNumberAlphabet[serial >> shift & 31];
  return Number::from_exact(text + *check_pair(text));
}

Result<std::string> parse_prefix(std::string_view typed) {
  std::string folded = fold(typed);
  if (folded.size() == kPrefixLength && all_used(folded)) return folded;
  return malformed("\"" + std::string(typed) + "\" is not a prefix",
                   "a prefix is two characters, digits or letters but not U");
}

}  // namespace counterfoil
