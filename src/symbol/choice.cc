#include "symbol/choice.h"

#include <array>

namespace counterfoil {
namespace {

// Holds 20 characters at level H, so that most payloads get the same symbol size.
constexpr int kLeastVersion = 2;
// A higher level may make modules this much smaller, and no more: measured for 6 dots in place of 7.
constexpr double kLeastShareOfModule = 0.8;
constexpr double kSlack = 1e-9;

}  // namespace

Result<SymbolChoice> choose_symbol(std::string_view text, double side_mm, double dots_per_inch,
                                   double least_module_mm) {
  const auto fit = [&](SymbolMatrix matrix) -> Result<SymbolChoice> {
    const auto dots = dots_per_module(matrix.modules, side_mm, dots_per_inch, least_module_mm);
    if (!dots) return dots.error();
    return SymbolChoice{std::move(matrix), *dots};
  };
  auto strongest = encode_symbol(text, CorrectionLevel::high, kLeastVersion);
  if (strongest && strongest->version == kLeastVersion) return fit(std::move(*strongest));

  auto coarse = encode_strongest(text, kLeastVersion);
  if (!coarse) return coarse.error();
  auto base = fit(std::move(*coarse));
  if (!base) return base;
  for (const auto level : {CorrectionLevel::high, CorrectionLevel::quartile, CorrectionLevel::medium}) {
    if (level <= base->matrix.level) break;
    auto matrix = encode_symbol(text, level, kLeastVersion);
    if (!matrix) continue;
    auto fitted = fit(std::move(*matrix));
    if (fitted && fitted->dots >= kLeastShareOfModule * base->dots - kSlack) return fitted;
  }
  return base;
}

}  // namespace counterfoil
