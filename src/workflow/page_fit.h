// How a printed page lies on its scan: the map from the page's millimetres to pixels, from symbols that were found, and
// what that says of the printer.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "base/affine.h"
#include "grade/reference_grid.h"
#include "sheet/stock.h"

namespace counterfoil {

// A symbol that should lie there on the page, and was found there.
struct FoundSymbol {
  Box box;             // mm, without quiet zone
  ReferenceGrid grid;  // pixels
};

struct PageFit {
  Affine map;                      // mm of the page to pixels
  double rms_mm = 0;               // that remains, over the symbols that go together
  std::vector<std::size_t> stray;  // symbols that do not go with the others
};

// The map that most symbols agree on. Nothing without symbols.
std::optional<PageFit> fit_page(const std::vector<FoundSymbol>& symbols);

struct PageGeometry {
  double dots_per_inch = 0;            // of the scan
  double scale_x = 1, scale_y = 1;     // printed over meant
  double turn_deg = 0, shear_deg = 0;  // of what is printed against the scan's edges; clockwise is positive
  // Where the page's top left corner came on the paper, the turn taken back. Nothing when the scan is not as large as
  // the page, so that the paper's edges are not its edges.
  std::optional<PicturePoint> offset_mm;
};

// `dots_per_inch` 0: the nearest usual one. Nothing when none is near. The page may lie on the scan in any of the four
// ways.
std::optional<PageGeometry> geometry_of(const Affine& map, const Stock& stock, int width, int height,
                                        double dots_per_inch);

}  // namespace counterfoil
