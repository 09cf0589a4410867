// Inside the sheet room: the symbols of a sheet in the order in which they are drawn, fitted on a thread of their own
// while the drawing goes on. Choosing the masks is a third of a long sheet's work.
#pragma once

#include <vector>

#include "base/ahead.h"
#include "base/result.h"
#include "sheet/fit.h"
#include "sheet/places.h"
#include "sheet/sheet.h"

namespace counterfoil {

class SymbolsAhead {
 public:
  // All three have to outlive this object.
  SymbolsAhead(const SheetOrder& order, const std::vector<SheetItem>& items,
               const std::vector<TagPlace>& places);

  // That of the next symbol slot: place by place, in the order of the design's slots. Precondition: there is one.
  Result<FittedSymbol> next() { return std::move(*fitted_.next()); }

 private:
  Ahead<Result<FittedSymbol>> fitted_;
};

}  // namespace counterfoil
