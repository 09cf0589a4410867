// What becomes of a page on a printer with known errors, and what a flatbed scanner or a camera then sees of the paper.
// Places on the paper are mm from its top left corner.
#pragma once

#include <cstdint>
#include <vector>

#include "base/affine.h"
#include "base/grey.h"
#include "base/projective.h"

namespace counterfoil {

struct SimulatedPrinter {
  double dots_per_inch = 300;
  Affine map;                     // from the page that it is sent to the paper
  std::vector<int> dead_columns;  // of the page's dots
  double spread_mm = 0.02;        // ink reaches so far beyond its dots
};

struct Paper {
  double width_mm = 0, height_mm = 0;
  std::uint8_t white = 225, ink = 40, backing = 45;
};

struct Optics {
  double blur_pixels = 0.7;  // standard deviation
  double noise = 3;          // standard deviation, grey levels
  unsigned seed = 1;
};

// `page`: one pixel a dot. The paper lies turned clockwise on the glass, with `margin_mm` of backing round it.
struct Glass {
  double dots_per_inch_x = 300, dots_per_inch_y = 300;  // the scanner's true ones
  double turn_deg = 0;
  double margin_mm = 6;
};
GreyPicture scan_of(const GreyPicture& page, const SimulatedPrinter& printer, const Paper& paper,
                    const Glass& glass, const Optics& optics);

// `view`: from the paper to pixels.
GreyPicture photo_of(const GreyPicture& page, const SimulatedPrinter& printer, const Paper& paper,
                     const Projective& view, int width, int height, const Optics& optics);

}  // namespace counterfoil
