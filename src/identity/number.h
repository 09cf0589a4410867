// The number of a tag pair: ten characters of Crockford's base 32 alphabet (crockford.com/base32), printed
// and spoken in groups of 4, 4 and 2: "K74Q 2B8X 61".
//
//   number = prefix serial check
//   prefix = 2 characters, who issued it
//   serial = 6 characters, the issuer's counter, scattered: counter * kScatter mod 32^6, highest digit first
//   check  = 2 characters, ISO/IEC 7064 MOD 1271-36 over the eight before
//
// Do not change: printed on tags and embedded in events.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace counterfoil {

inline constexpr std::string_view kNumberAlphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
inline constexpr std::size_t kPrefixLength = 2;
inline constexpr std::size_t kNumberLength = 10;
inline constexpr std::uint32_t kCounterEnd = 1u << 30;  // counters are 1 .. kCounterEnd - 1

// The serials of two counters at distance j differ in all six characters for every j up to kAllDiffer, and in
// at least three for every j up to kThreeDiffer, whatever the counters: adding j * kScatter changes every
// character where that product has a base 32 digit of 1 .. 30 (a carry adds one more at most, so neither
// makes a multiple of 32), and the last one also where it is 31. Found by trying all odd multipliers and
// taking, of those with at least 20 multiples without a digit of 0 or 31, the one whose multiples keep three
// such digits for longest. (By Dirichlet's approximation theorem no multiplier has more than 30 such
// multiples.)
inline constexpr std::uint32_t kScatter = 784921797;
inline constexpr std::uint32_t kAllDiffer = 22;
inline constexpr std::uint32_t kThreeDiffer = 88900;

class Number {
 public:
  // Takes any case, spaces and hyphens between characters, O for 0, I and L for 1. The error says what kind
  // of slip it looks like (a character missing or too many, a letter that is never used, one wrong character,
  // two neighbours swapped, two swapped across a third); its hint has the numbers that this slip explains, if
  // they are few.
  static Result<Number> parse(std::string_view typed);

  // Only the stored form, as text() gives it: for symbols and events, where nothing is folded.
  static std::optional<Number> from_exact(std::string_view text);

  // As printed in symbols and stored: "K74Q2B8X61".
  const std::string& text() const { return text_; }
  // As printed for people: "K74Q 2B8X 61".
  std::string grouped() const;
  std::string prefix() const { return text_.substr(0, kPrefixLength); }

  friend auto operator<=>(const Number&, const Number&) = default;

 private:
  explicit Number(std::string text) : text_(std::move(text)) {}
  std::string text_;
};

// Two characters of kNumberAlphabet, upper case; folds as Number::parse does.
Result<std::string> parse_prefix(std::string_view typed);

// The number of that counter; nothing when its check pair would hold I, L, O or U: such counters are skipped.
// Precondition: a valid prefix, 0 < counter < kCounterEnd.
std::optional<Number> number_at(std::string_view prefix, std::uint32_t counter);

// Every number one slip away from the typed text that checks: one character other, missing or too many, two
// swapped (neighbours or across a third), the whole shifted by one place. A '?' counts as a wrong character,
// so it may stand for one that cannot be read. Sorted, without doubles.
std::vector<Number> one_slip_away(std::string_view typed);

}  // namespace counterfoil
