// The grey value at a place between pixels.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>

#include "base/grey.h"

namespace counterfoil {

// Bilinear; outside the picture the value of its edge. Precondition: the picture is not empty.
inline float grey_at(GreyView picture, double x, double y) {
  const double cx = std::clamp(x - 0.5, 0.0, picture.width - 1.001);
  const double cy = std::clamp(y - 0.5, 0.0, picture.height - 1.001);
  const int ix = static_cast<int>(cx), iy = static_cast<int>(cy);
  const float fx = static_cast<float>(cx - ix), fy = static_cast<float>(cy - iy);
  const std::uint8_t* p = picture.pixels + std::ptrdiff_t{iy} * picture.width + ix;
  const std::uint8_t* q = iy + 1 < picture.height ? p + picture.width : p;
  const int right = ix + 1 < picture.width ? 1 : 0;
  const float upper = static_cast<float>(p[0]) + fx * static_cast<float>(p[right] - p[0]);
  const float lower = static_cast<float>(q[0]) + fx * static_cast<float>(q[right] - q[0]);
  return upper + fy * (lower - upper);
}

}  // namespace counterfoil
