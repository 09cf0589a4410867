// What a stock's description comes to, in numbers that can be held against the real sheet, and what about it is
// allowed and yet looks wrong.
#pragma once

#include <string>
#include <vector>

#include "sheet/stock.h"

namespace counterfoil {

// Beside a printer's edges many leave so much blank; common practice.
inline constexpr double kUnprintableMm = 3;

struct Survey {
  double bag_width_mm = 0, bag_height_mm = 0;  // to print on, of a pair's halves
  double box_width_mm = 0, box_height_mm = 0;
  double left_over_right_mm = 0, left_over_bottom_mm = 0;  // behind the last label
  int single_labels = 0;                                   // of a page, that no pair takes

  // The largest symbol of the usual 25 modules on the smaller half, by the printer's dots.
  struct Module {
    double dots_per_inch = 0;
    int dots = 0;  // 0: not even 0.38 mm
    double module_mm = 0;
  };
  std::vector<Module> modules;
  std::vector<std::string> remarks;
};

Survey survey(const Stock& stock);

}  // namespace counterfoil
