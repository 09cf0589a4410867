#include "grade/plane.h"

#include <algorithm>
#include <cmath>

namespace counterfoil {
namespace {

// Lines of a plane, level or upright, one after the other.
template <typename Line>
void for_each_line(const Plane& plane, bool upright, Line line) {
  const int lines = upright ? plane.width : plane.height, length = upright ? plane.height : plane.width;
  const auto step = static_cast<std::size_t>(upright ? plane.width : 1);
  for (int i = 0; i < lines; ++i) line(upright ? plane.index(i, 0) : plane.index(0, i), step, length);
}

// `keep(a, b)`: the value of two that stays.
template <typename Keep>
Plane extreme_around(const Plane& plane, int reach, Keep keep) {
  Plane from = plane, to = plane;
  for (const bool upright : {false, true}) {
    for_each_line(plane, upright, [&](std::size_t first, std::size_t step, int length) {
      for (int i = 0; i < length; ++i) {
        float value = from.values[first + static_cast<std::size_t>(i) * step];
        for (int k = std::max(0, i - reach); k <= std::min(length - 1, i + reach); ++k)
          value = keep(value, from.values[first + static_cast<std::size_t>(k) * step]);
        to.values[first + static_cast<std::size_t>(i) * step] = value;
      }
    });
    std::swap(from, to);
  }
  return from;
}

double grey_between(GreyView picture, PicturePoint place) {
  const double x = std::clamp(place.x - 0.5, 0.0, picture.width - 1.0),
               y = std::clamp(place.y - 0.5, 0.0, picture.height - 1.0);
  const int left = static_cast<int>(x), top = static_cast<int>(y);
  const int right = std::min(left + 1, picture.width - 1), bottom = std::min(top + 1, picture.height - 1);
  const double across = x - left, down = y - top;
  const auto at = [&](int column, int row) {
    return static_cast<double>(
        picture.pixels[static_cast<std::size_t>(row) * static_cast<std::size_t>(picture.width) +
                       static_cast<std::size_t>(column)]);
  };
  return (at(left, top) * (1 - across) + at(right, top) * across) * (1 - down) +
         (at(left, bottom) * (1 - across) + at(right, bottom) * across) * down;
}

}  // namespace

float Plane::between(PicturePoint place) const {
  const double x = std::clamp(place.x - 0.5, 0.0, width - 1.0),
               y = std::clamp(place.y - 0.5, 0.0, height - 1.0);
  const int left = static_cast<int>(x), top = static_cast<int>(y);
  const int right = std::min(left + 1, width - 1), bottom = std::min(top + 1, height - 1);
  const auto across = static_cast<float>(x - left), down = static_cast<float>(y - top);
  return (at(left, top) * (1 - across) + at(right, top) * across) * (1 - down) +
         (at(left, bottom) * (1 - across) + at(right, bottom) * across) * down;
}

Plane flattened(GreyView picture, const Affine& to_picture, int width, int height) {
  Plane plane(width, height);
  // So many samples to a side that no pixel of the picture is passed over.
  const double side =
      std::max(std::hypot(to_picture.xx, to_picture.yx), std::hypot(to_picture.xy, to_picture.yy));
  const int samples = std::clamp(static_cast<int>(std::ceil(side)), 1, 6);
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      double sum = 0;
      for (int j = 0; j < samples; ++j)
        for (int i = 0; i < samples; ++i)
          sum += grey_between(picture, to_picture({x + (i + 0.5) / samples, y + (j + 0.5) / samples}));
      plane.at(x, y) = static_cast<float>(sum / (samples * samples));
    }
  return plane;
}

Plane blurred(const Plane& plane, double deviation) {
  const int reach = static_cast<int>(std::ceil(3 * deviation));
  if (reach == 0) return plane;
  std::vector<float> weights;
  float all = 0;
  for (int i = -reach; i <= reach; ++i) {
    weights.push_back(static_cast<float>(std::exp(-i * i / (2 * deviation * deviation))));
    all += weights.back();
  }
  for (auto& weight : weights) weight /= all;
  Plane out = plane;
  std::vector<float> line;
  for (const bool upright : {false, true})
    for_each_line(plane, upright, [&](std::size_t first, std::size_t step, int length) {
      line.clear();
      for (int i = -reach; i < length + reach; ++i)
        line.push_back(out.values[first + static_cast<std::size_t>(std::clamp(i, 0, length - 1)) * step]);
      for (int i = 0; i < length; ++i) {
        float value = 0;
        for (std::size_t k = 0; k < weights.size(); ++k)
          value += weights[k] * line[static_cast<std::size_t>(i) + k];
        out.values[first + static_cast<std::size_t>(i) * step] = value;
      }
    });
  return out;
}

Plane least_around(const Plane& plane, int reach) {
  return extreme_around(plane, reach, [](float a, float b) { return std::min(a, b); });
}

Plane largest_around(const Plane& plane, int reach) {
  return extreme_around(plane, reach, [](float a, float b) { return std::max(a, b); });
}

Plane sum_around(const Plane& plane, int reach) {
  Plane out = plane;
  std::vector<double> until;  // sums of the line up to each place
  for (const bool upright : {false, true})
    for_each_line(plane, upright, [&](std::size_t first, std::size_t step, int length) {
      until.assign(1, 0);
      for (int i = 0; i < length; ++i)
        until.push_back(until.back() + double{out.values[first + static_cast<std::size_t>(i) * step]});
      for (int i = 0; i < length; ++i)
        out.values[first + static_cast<std::size_t>(i) * step] =
            static_cast<float>(until[static_cast<std::size_t>(std::min(length, i + reach + 1))] -
                               until[static_cast<std::size_t>(std::max(0, i - reach))]);
    });
  return out;
}

Plane steepness(const Plane& plane) {
  Plane out(plane.width, plane.height);
  for (int y = 0; y < plane.height; ++y)
    for (int x = 0; x < plane.width; ++x) {
      const float across = plane.at(std::min(x + 1, plane.width - 1), y) - plane.at(std::max(x - 1, 0), y);
      const float down = plane.at(x, std::min(y + 1, plane.height - 1)) - plane.at(x, std::max(y - 1, 0));
      out.at(x, y) = std::hypot(across, down) / 2;
    }
  return out;
}

}  // namespace counterfoil
