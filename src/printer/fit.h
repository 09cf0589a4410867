// The straight map between where things should be and where they were measured: least squares over many places, with
// those left out that do not go with the rest, and how sure the map is. Not for a camera's perspective, which has to
// be taken out first (base/projective.h).
// Source: linear least squares by the normal equations of centred coordinates, and their covariance, as in the
// NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.3; rejection by the median absolute deviation, 1.3.5.17; both
// from memory.
#pragma once

#include <cstddef>
#include <vector>

#include "base/affine.h"
#include "base/result.h"

namespace counterfoil {

// One place, such as a mark: where it should be and where it was measured, each in whatever unit.
struct Correspondence {
  PicturePoint meant{}, measured{};
};

struct AffineFit {
  Affine map;           // from meant to measured
  double rms = 0;       // of the distances that remain, over the places kept, in the unit of `measured`
  double farthest = 0;  // the largest of them
  std::vector<std::size_t> left_out;  // places that did not go with the rest, by index
  // Standard errors by the scatter that remains: of the mean place, and of what one unit of `meant` becomes along x and
  // along y, such as of a scale.
  double place_error = 0, x_scale_error = 0, y_scale_error = 0;
};

// Leaves out what lies farther off than `tolerance` (in the unit of `measured`) and than 4 times the usual scatter, at
// most a third of all. `refused` when fewer than four places remain, when they lie on one line, or when
// those that remain do not agree within `tolerance` (root mean square).
Result<AffineFit> fit_affine(const std::vector<Correspondence>& places, double tolerance);

}  // namespace counterfoil
