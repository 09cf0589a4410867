// Straight maps of the plane, which keep parallels: what a printer does to a page (base/projective.h is what a camera
// does to it).
#pragma once

#include "base/grey.h"

namespace counterfoil {

// x' = xx x + xy y + x0, y' = yx x + yy y + y0; changes nothing as it comes.
struct Affine {
  double xx = 1, xy = 0, x0 = 0;
  double yx = 0, yy = 1, y0 = 0;

  PicturePoint operator()(PicturePoint p) const {
    return {xx * p.x + xy * p.y + x0, yx * p.x + yy * p.y + y0};
  }
  double determinant() const { return xx * yy - xy * yx; }
  // Precondition: the determinant is not 0.
  Affine inverse() const {
    const double d = determinant();
    return {yy / d, -xy / d, (xy * y0 - yy * x0) / d, -yx / d, xx / d, (yx * x0 - xx * y0) / d};
  }

  friend bool operator==(const Affine&, const Affine&) = default;
};

// One after the other.
inline Affine chained(const Affine& first, const Affine& then) {
  const PicturePoint origin = then({first.x0, first.y0});
  return {then.xx * first.xx + then.xy * first.yx, then.xx * first.xy + then.xy * first.yy, origin.x,
          then.yx * first.xx + then.yy * first.yx, then.yx * first.xy + then.yy * first.yy, origin.y};
}

}  // namespace counterfoil
