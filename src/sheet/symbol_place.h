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

// Top left dot of a symbol on the page that the printer is sent, without its quiet zone.
struct SymbolSpot {
  int column = 0, row = 0;
  bool on_dead_column = false;  // of the printer's, where the slot has no room to keep off
};
// In the middle of its slot, or as near to it as whole dots and dead columns let it. (x, y): the design's top left corner.
SymbolSpot symbol_spot(const SheetOrder& order, const FittedSymbol& symbol, const Slot& slot, double x_mm,
                       double y_mm);
// Where that comes on the paper.
Box symbol_box(const SheetOrder& order, const FittedSymbol& symbol, const SymbolSpot& spot);

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
