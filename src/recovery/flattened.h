// A symbol's piece of the picture, unrolled to a square with so many pixels a module, and its light evened out: what
// is left of each pixel is how dark it is beside its neighbourhood.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "base/grey.h"
#include "recovery/framing.h"

namespace counterfoil {

class Flattened {
 public:
  static constexpr int kPixels = 8;  // a module
  static constexpr int kMargin = 3;  // modules kept around the symbol

  Flattened(GreyView grey, const Framing& framing);

  int modules() const { return modules_; }
  // 1 dark, -1 light, 0 neither, at a place in modules from the symbol's outer top left corner: the mean over the
  // middle of a module whose centre is there.
  float darkness(float u, float v) const;

 private:
  int modules_;
  int side_;  // pixels
  std::vector<float> darkness_;
};

// Here and not in the source file: asked a million times for one grid.
inline float Flattened::darkness(float u, float v) const {
  const float limit = static_cast<float>(side_) - 1.001F;
  const float x = std::clamp((u + kMargin) * kPixels - 0.5F, 0.0F, limit);
  const float y = std::clamp((v + kMargin) * kPixels - 0.5F, 0.0F, limit);
  const int ix = static_cast<int>(x), iy = static_cast<int>(y);
  const float fx = x - static_cast<float>(ix), fy = y - static_cast<float>(iy);
  const float* p = darkness_.data() + static_cast<std::ptrdiff_t>(iy) * side_ + ix;
  const float* q = p + side_;
  const float upper = p[0] + fx * (p[1] - p[0]), lower = q[0] + fx * (q[1] - q[0]);
  return upper + fy * (lower - upper);
}

}  // namespace counterfoil
