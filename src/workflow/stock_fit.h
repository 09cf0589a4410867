// Inside the print check: whether the tags of a page lie as another stock would have them.
#pragma once

#include <vector>

#include "grade/reference_grid.h"
#include "sheet/symbol_place.h"

namespace counterfoil {

// A stock on which the same order could have been printed, and the symbols of all its pages.
struct OtherStock {
  Stock stock;
  std::vector<SheetSymbol> symbols;
};

// A symbol of the page, where it should be, and where it was found.
struct MeasuredSymbol {
  const SheetSymbol* meant = nullptr;
  ReferenceGrid grid;
};

// A scan, as far as places go.
struct ScanSize {
  int width = 0, height = 0;  // pixels
  double dots_per_inch = 0;   // 0: the nearest usual resolution
};

// Only where the stock that was named does not fit and another does, in size and in all places; else null. One symbol
// alone lies well on any stock.
const OtherStock* better_stock(const std::vector<MeasuredSymbol>& symbols, const Stock& named,
                               const std::vector<OtherStock>& others, const ScanSize& scan);

}  // namespace counterfoil
