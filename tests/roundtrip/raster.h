// A rendered page as grey pixels, for measuring what was printed and not what was meant.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sheet/stock.h"

namespace counterfoil {

struct Raster {
  int width = 0, height = 0;
  double dots_per_inch = 0;
  std::vector<std::uint8_t> grey;

  bool ink(int x, int y) const { return grey[static_cast<std::size_t>(y * width + x)] < 128; }
  double mm(double pixels) const { return pixels * 25.4 / dots_per_inch; }
  int pixel(double mm_from_edge) const { return static_cast<int>(mm_from_edge / 25.4 * dots_per_inch); }

  // The box around all ink within that box, in mm; width 0 when there is none.
  Box ink_in(const Box& box) const;
  // That part of the page, from whole pixels on.
  Raster cropped(const Box& box) const;
  // No ink there any more.
  void clear(const Box& box);
};

// Every page of the PDF by Poppler. Throws when it cannot be run.
std::vector<Raster> rasterised(const std::string& pdf, double dots_per_inch);

}  // namespace counterfoil
