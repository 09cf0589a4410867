// Inside the print check: lines of dots that are missing all over a page, from the light lines of its symbols.
#pragma once

#include <vector>

#include "base/affine.h"
#include "base/grey.h"
#include "sheet/symbol_place.h"
#include "workflow/stock_fit.h"

namespace counterfoil {

// A column or row of dots that is light through all that should be dark.
struct MissingDots {
  bool column = true;
  double at_mm = 0;  // from the page's left edge, or top edge
  double width_mm = 0;
  int symbols = 0;  // it runs through
};

// Lines that show in most symbols in whose way they are. `to_page`: pixels to mm of the page.
std::vector<MissingDots> missing_dots(GreyView picture, const std::vector<MeasuredSymbol>& symbols,
                                      const Affine& to_page);

}  // namespace counterfoil
