// Whatever is typed: a number that is taken prints back to itself, and every correction offered is a number.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "base/text.h"
#include "identity/number.h"

using namespace counterfoil;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view typed(reinterpret_cast<const char*>(data), size);
  const auto number = Number::parse(typed);
  if (number) {
    const auto again = Number::parse(number->grouped());
    const auto exact = Number::from_exact(number->text());
    if (!again || !exact || *again != *number || *exact != *number) std::abort();
  } else if (has_control_characters(number.error().message) || number.error().message.empty()) {
    std::abort();
  }
  for (const Number& other : one_slip_away(typed))
    if (!Number::from_exact(other.text())) std::abort();
  return 0;
}
