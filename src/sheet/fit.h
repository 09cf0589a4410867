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
  int dots = 0;                  // a module
  double module_mm = 0;          // on the paper, its shorter side
  double longest_module_mm = 0;  // and its longer one

  double width_mm() const { return matrix.modules * module_mm; }  // without quiet zone
};
// To the inch of paper, where a printer that stretches the page has fewer: the way that has fewest, and the other.
struct DotsOnPaper {
  double fewest = 0, most = 0;
};
DotsOnPaper dots_on_paper(const SheetOrder& order);

// The symbol that the slot takes (symbol/choice.h); `refused` under the slot's least module.
Result<FittedSymbol> fit_symbol(const Slot& slot, std::string_view payload, const DotsOnPaper& dots);

}  // namespace counterfoil
