// What a stock's description comes to, in numbers that can be held against the real sheet, and what about it is
// allowed and yet looks wrong.
#pragma once

#include <string>
#include <vector>

#include "sheet/design.h"
#include "sheet/stock.h"

namespace counterfoil {

// Beside a printer's edges many leave so much blank; common practice.
inline constexpr double kUnprintableMm = 3;

struct Survey {
  double bag_width_mm = 0, bag_height_mm = 0;  // to print on, of a pair's halves
  double box_width_mm = 0, box_height_mm = 0;
  double left_over_right_mm = 0, left_over_bottom_mm = 0;  // behind the last label
  int single_labels = 0;                                   // of a page, that no pair takes
  std::vector<std::string> remarks;
};

Survey survey(const Stock& stock);

// A symbol of the usual 25 modules by the dots of a printer.
struct ModuleSize {
  double dots_per_inch = 0;
  int dots = 0;  // 0: the symbol would be finer than its slot states
  double module_mm = 0;
};
// On the common printers, 203.2, 300, 304.8 and 600 dots to the inch: what the design's first symbol has.
std::vector<ModuleSize> module_sizes(const Design& design);

}  // namespace counterfoil
