#include "cli/symbol_words.h"

#include <cmath>

#include "base/text.h"

namespace counterfoil {
namespace {

std::int64_t micrometres(double mm) { return std::llround(mm * 1000); }

}  // namespace

std::string symbol_line(const SymbolReport& symbol) {
  const std::string which = symbol.slot == "symbol" ? "" : " (" + symbol.slot + ")";
  return symbol.design + which + ": modules of " + counted(static_cast<std::uint64_t>(symbol.dots), "dot") +
         ", " + decimal(symbol.module_mm, 3) + " mm; symbol " + decimal(symbol.width_mm(), 3) +
         " mm wide, level " + to_letter(symbol.level) + "; read from up to " +
         decimal(std::round(symbol.reading_distance_mm() / 10)) + " cm";
}

std::string symbol_reason(const SymbolReport& symbol) {
  const double next_mm =
      (symbol.dots + 1) * symbol.module_mm / symbol.dots * (symbol.modules + 2 * kQuietZoneModules);
  return std::to_string(symbol.dots + 1) + " dots a module would need a slot of " + decimal(next_mm, 3) +
         " mm, and it has " + decimal(symbol.slot_mm, 3) + "; level " + to_letter(symbol.level) +
         " is the highest that " + std::to_string(symbol.modules) + " modules hold";
}

Json symbol_json(const SymbolReport& symbol) {
  return Json::Object{{"design", symbol.design},
                      {"slot", symbol.slot},
                      {"tags", symbol.tags},
                      {"modules", symbol.modules},
                      {"version", symbol.version},
                      {"level", std::string(1, to_letter(symbol.level))},
                      {"dots", symbol.dots},
                      {"module_um", micrometres(symbol.module_mm)},
                      {"width_um", micrometres(symbol.width_mm())},
                      {"slot_um", micrometres(symbol.slot_mm)},
                      {"reading_distance_mm", std::int64_t{std::llround(symbol.reading_distance_mm())}},
                      {"why", symbol_reason(symbol)}};
}

}  // namespace counterfoil
