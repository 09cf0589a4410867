// Lines of dots that were not printed: a dead element of the head leaves a light line through all that is dark along the
// feed, a missed row one across it. ISO/IEC 15415 knows no such parameter; the limits are ours.
#pragma once

#include <cstdint>
#include <vector>

#include "base/grey.h"
#include "grade/reference_grid.h"

namespace counterfoil {

struct LightLine {
  bool upright = true;  // in the symbol: a column of dots, or a row
  double at = 0;        // its middle, in modules from the symbol's left or top edge
  double width = 0;     // in modules, as if it were wholly light
};

// Lines that run through at least 70 % of the dark modules in their way, and through three modules of dark at least, from
// left to right, then from top to bottom. `dark`: the symbol's modules, 1 dark, row by row.
std::vector<LightLine> light_lines(GreyView picture, const ReferenceGrid& grid,
                                   const std::vector<std::uint8_t>& dark);

// Whether a line there would have been seen: enough is dark in its way.
bool would_show(const std::vector<std::uint8_t>& dark, int modules, bool upright, double at);

}  // namespace counterfoil
