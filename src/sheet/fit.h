// Inside the sheet room: whether a design has its place on a stock, and its symbols their modules.
#pragma once

#include <string_view>
#include <vector>

#include "base/result.h"
#include "sheet/sheet.h"
#include "sheet/slot.h"
#include "symbol/matrix.h"

namespace counterfoil {

// `refused` when the design is larger than the place.
Result<void> check_room(const Design& design, const Box& printable, const Stock& stock);

struct FittedSymbol {
  SymbolMatrix matrix;
  int dots = 0;  // a module
  double module_mm = 0;

  double width_mm() const { return matrix.modules * module_mm; }  // without quiet zone
};
// The symbol that the slot takes, with the most whole dots a module; `refused` under the slot's least module.
Result<FittedSymbol> fit_symbol(const Slot& slot, std::string_view payload, double dots_per_inch);

}  // namespace counterfoil
