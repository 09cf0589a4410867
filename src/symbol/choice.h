// Which symbol a square of paper gets on a printer whose dots are what they are: version, level and size of
// the modules, so that it is read best when it has been damaged. Old tags stay readable: a reader takes every
// version and level.
#pragma once

#include <string_view>

#include "symbol/matrix.h"

namespace counterfoil {

struct SymbolChoice {
  SymbolMatrix matrix;
  int dots = 0;  // along a module
};

// The square's side includes the quiet zone. `malformed` when no symbol holds the text, `refused` when even
// the coarsest symbol's modules would be smaller than `least_module_mm`.
//
// Parity is worth more than size, up to a point (figures in tests/bench/arrangement.md): of the highest level
// whose modules are at least 0.8 times as large as the coarsest symbol's, the smallest version. A link in 31 mm
// at 8 dots/mm is 4-H with 6 dots and no longer 2-L with 7: 72 % instead of 44 % of damaged tags decode. At
// the same level a larger version only makes modules small: a bare number stays 2-H, which is better than 3-H
// and 4-H. A smaller version with larger modules and less parity, 1-M, is worse as well.
Result<SymbolChoice> choose_symbol(std::string_view text, double side_mm, double dots_per_inch,
                                   double least_module_mm);

}  // namespace counterfoil
