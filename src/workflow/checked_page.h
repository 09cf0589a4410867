// Inside the print check: one scanned page held against the symbols that should be on it.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sheet/symbol_place.h"
#include "workflow/check_print.h"
#include "workflow/stock_fit.h"

namespace counterfoil {

// What a page is held against.
struct PageTruth {
  const Stock* stock = nullptr;
  std::vector<SheetSymbol> symbols;  // of all pages
  std::vector<OtherStock> others;
  int page = 0;              // from 1, or 0 for whichever it shows
  double dots_per_inch = 0;  // of the scan, or 0
  // What to draw the page from; nothing but symbols is judged without.
  const SheetOrder* order = nullptr;
  const std::vector<SheetItem>* items = nullptr;
  // The turnaround of a number that is not of the order; empty when nothing is known of it.
  std::function<std::string(const Number&)> turnaround_of{};
};

// `tags`: what was read on that page of the scan. Corners are pixels of `picture`.
CheckedPage check_page(GreyView picture, const std::vector<TagSeen>& tags, const PageTruth& truth);

}  // namespace counterfoil
