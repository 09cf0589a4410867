// Where the symbols of a sheet lie, to the dot: for what draws them, and for what checks a print of them.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "base/result.h"
#include "sheet/sheet.h"
#include "symbol/matrix.h"

namespace counterfoil {

struct FittedSymbol;
struct Slot;

// A design lies in the middle of what can be printed on: its top left corner, x and y.
std::pair<double, double> design_corner(const Design& design, const Box& printable);

// A symbol lies in the middle of its slot and begins with a whole dot; without its quiet zone. (x, y): the design's top
// left corner.
Box symbol_box(const FittedSymbol& symbol, const Slot& slot, double x_mm, double y_mm, double dots_per_inch);

// A symbol that draw_sheet draws.
struct SheetSymbol {
  TagPlace tag;
  std::string payload;
  SymbolMatrix matrix;
  Box box;  // without quiet zone
};

// All of them, in the order of places_of(), tag by tag. The errors are those of draw_sheet for symbols and places;
// texts are not looked at.
Result<std::vector<SheetSymbol>> symbols_of(const SheetOrder& order, const std::vector<SheetItem>& items);

}  // namespace counterfoil
