// Where the symbols of a sheet lie, to the dot: for what draws them, and for what checks a print of them.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "sheet/sheet.h"
#include "symbol/matrix.h"

namespace counterfoil {

struct SymbolPlace {
  SymbolMatrix matrix;
  int dots_per_module = 0;
  Box box;  // the symbol itself, without its quiet zone; begins with a whole dot
};

// In the middle of its slot, with its quiet zone inside. `refused` when its modules would be smaller than that.
Result<SymbolPlace> symbol_place(std::string_view payload, const Box& slot, double least_module_mm,
                                 double dots_per_inch);

// A slot of a design that lies there.
Box moved(const Box& slot, const Box& design);
// The whole of a design, in the middle of its half.
Box design_place(const Design& design, const Box& half);

// A symbol that draw_sheet draws.
struct SheetSymbol {
  TagPlace tag;
  std::string payload;
  SymbolPlace place;
};

// All of them, in the order of places_of(), tag by tag. The errors are those of draw_sheet for symbols and places;
// texts are not looked at.
Result<std::vector<SheetSymbol>> symbols_of(const SheetOrder& order, const std::vector<SheetItem>& items);

}  // namespace counterfoil
