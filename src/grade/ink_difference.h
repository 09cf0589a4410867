// Ink that a print lacks or has too much of, beside its drawing. What every print and scan does is taken into account:
// tones of paper and ink, also where they change evenly across the picture; blur; ink that spreads or draws in evenly;
// and places that are off by a pixel or so. Pixels should be about 0.1 mm.
#pragma once

#include "grade/plane.h"

namespace counterfoil {

struct InkPlanes {
  Plane meant;          // ink as the print should show it, 0 to 1: blurred and spread as this print is
  Plane seen;           // 0 paper, 1 ink; noise goes a little beyond
  double paper = 255;   // grey, in the middle
  double contrast = 0;  // from ink to paper, grey
  double blur = 0;      // standard deviation, pixels
  double spread = 0;    // how far ink reaches beyond its edges, pixels
};

// `scan`: flattened and registered, of the same size. `drawing`: 255 where nothing is printed.
InkPlanes ink_planes(const Plane& drawing, const Plane& scan);

inline constexpr int kSpotReach = 3;  // pixels to all sides of its middle that a spot has

struct InkDifference {
  Plane missing,
      extra;  // ink in the spot around each pixel, in wholly inked pixels, at the best of small shifts
};
// Where no spot has more than `enough` as it lies, no shifts are tried.
InkDifference ink_difference(const Plane& meant, const Plane& seen, float enough = 0);

}  // namespace counterfoil
