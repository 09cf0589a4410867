// A grey picture in floating point, for what is computed between pixels. Places are pixels from the outer corner of the top
// left one.
#pragma once

#include <cstddef>
#include <vector>

#include "base/affine.h"
#include "base/grey.h"

namespace counterfoil {

struct Plane {
  int width = 0, height = 0;
  std::vector<float> values;  // row by row

  Plane() = default;
  Plane(int columns, int rows, float value = 0)
      : width(columns),
        height(rows),
        values(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows), value) {}

  std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
  }
  float& at(int x, int y) { return values[index(x, y)]; }
  float at(int x, int y) const { return values[index(x, y)]; }
  // Between pixels; beyond the edge what the edge shows.
  float between(PicturePoint place) const;
};

// Pixels of a plane or picture, the last ones not included.
struct PixelBox {
  int left = 0, top = 0, right = 0, bottom = 0;

  bool empty() const { return left >= right || top >= bottom; }
};

// What of a picture lies under each pixel of a plane so large, its mean; `to_picture` leads from the plane's places to the
// picture's. Beyond the picture what its edge shows. Precondition: the picture is not empty.
Plane flattened(GreyView picture, const Affine& to_picture, int width, int height);

// Each pixel the mean of a square of so many a side; what is over at the right and the bottom is left out.
Plane reduced(const Plane& plane, int by);
// By a Gaussian with that standard deviation, in pixels; the edge goes on beyond itself.
Plane blurred(const Plane& plane, double deviation);
// The least or largest value of the square of so many pixels to all sides.
Plane least_around(const Plane& plane, int reach);
Plane largest_around(const Plane& plane, int reach);
// The sum over the square of so many pixels to all sides; nothing beyond the edge.
Plane sum_around(const Plane& plane, int reach);
// How fast the plane changes, per pixel.
Plane steepness(const Plane& plane);

}  // namespace counterfoil
