// A symbol's piece of the picture, unrolled to a square with so many pixels a module, and its light evened out: what
// is left of each pixel is how dark it is beside its neighbourhood.
#pragma once

#include <vector>

#include "base/grey.h"
#include "recovery/framing.h"

namespace counterfoil {

class Flattened {
 public:
  static constexpr int kPixels = 8;  // a module
  static constexpr int kMargin = 3;  // modules kept around the symbol

  // `window` modules, an odd number, are what a pixel is compared with.
  Flattened(GreyView grey, const Framing& framing, int window);

  int modules() const { return modules_; }
  // 1 dark, -1 light, 0 neither, at a place in modules from the symbol's outer top left corner: the mean over the
  // middle of a module whose centre is there.
  float darkness(float u, float v) const;

 private:
  int modules_;
  int side_;  // pixels
  std::vector<float> darkness_;
};

}  // namespace counterfoil
