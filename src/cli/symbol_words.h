// What was chosen for the symbols of a sheet, and why, in words.
#pragma once

#include <string>

#include "base/json.h"
#include "workflow/print.h"

namespace counterfoil {

// "bag: modules of 11 dots, 0.931 mm; symbol 23.3 mm wide, level H; read from up to 23 cm"
std::string symbol_line(const SymbolReport& symbol);

// Why no larger module and no other level, one sentence.
std::string symbol_reason(const SymbolReport& symbol);

Json symbol_json(const SymbolReport& symbol);

}  // namespace counterfoil
