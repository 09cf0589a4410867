#include "identity/check_pair.h"

namespace counterfoil {
namespace {

constexpr int kModulus = 1271;
constexpr int kRadix = 36;
constexpr std::string_view kCharacters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";  // by value

}  // namespace

// ISO/IEC 7064:2003, the pure system recursive method with two check characters: the string with its check
// pair, read in radix 36, is to be 1 modulo 1271. Of congruent pairs it gives the one of value 2 .. 1272
// ("ZC" for "ZB", not "01"), as 98 - N mod 97 does for MOD 97-10.
std::optional<std::string> check_pair(std::string_view body) {
  int remainder = 0;
  for (const char c : body) {
    const auto value = kCharacters.find(c);
    if (value == std::string_view::npos) return std::nullopt;
    remainder = (remainder + static_cast<int>(value)) * kRadix % kModulus;
  }
  const int check = kModulus + 1 - remainder * kRadix % kModulus;
  return std::string{kCharacters[static_cast<std::size_t>(check / kRadix)],
                     kCharacters[static_cast<std::size_t>(check % kRadix)]};
}

}  // namespace counterfoil
