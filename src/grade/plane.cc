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

Plane reduced(const Plane& plane, int by) {
  if (by == 1) return plane;
  Plane out(plane.width / by, plane.height / by);
  for (int y = 0; y < out.height * by; ++y)
    for (int x = 0; x < out.width * by; ++x) out.at(x / by, y / by) += plane.at(x, y);
  for (auto& value : out.values) value /= static_cast<float>(by * by);
  return out;
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
  // Row by row both ways, which is several times faster than down the columns.
  const auto columns = static_cast<std::size_t>(plane.width);
  Plane across(plane.width, plane.height), out(plane.width, plane.height);
  std::vector<float> line(columns + weights.size() - 1);
  for (int y = 0; y < plane.height; ++y) {
    const float* const from = &plane.values[plane.index(0, y)];
    for (int i = -reach; i < plane.width + reach; ++i)
      line[static_cast<std::size_t>(i + reach)] = from[std::clamp(i, 0, plane.width - 1)];
    float* const to = &across.values[across.index(0, y)];
    for (std::size_t k = 0; k < weights.size(); ++k)
      for (std::size_t x = 0; x < columns; ++x) to[x] += weights[k] * line[x + k];
  }
  for (int y = 0; y < plane.height; ++y) {
    float* const to = &out.values[out.index(0, y)];
    for (int k = -reach; k <= reach; ++k) {
      const float* const from = &across.values[across.index(0, std::clamp(y + k, 0, plane.height - 1))];
      const float weight = weights[static_cast<std::size_t>(k + reach)];
      for (std::size_t x = 0; x < columns; ++x) to[x] += weight * from[x];
    }
  }
  return out;
}

Plane least_around(const Plane& plane, int reach) {
  return extreme_around(plane, reach, [](float a, float b) { return std::min(a, b); });
}

Plane largest_around(const Plane& plane, int reach) {
  return extreme_around(plane, reach, [](float a, float b) { return std::max(a, b); });
}

Plane sum_around(const Plane& plane, int reach) {
  const auto columns = static_cast<std::size_t>(plane.width);
  Plane across(plane.width, plane.height), out(plane.width, plane.height);
  std::vector<float> line(columns + 2 * static_cast<std::size_t>(reach));
  for (int y = 0; y < plane.height; ++y) {
    std::copy_n(&plane.values[plane.index(0, y)], columns, line.begin() + reach);
    float* const to = &across.values[across.index(0, y)];
    for (std::size_t k = 0; k <= 2 * static_cast<std::size_t>(reach); ++k)
      for (std::size_t x = 0; x < columns; ++x) to[x] += line[x + k];
  }
  for (int y = 0; y < plane.height; ++y) {
    float* const to = &out.values[out.index(0, y)];
    for (int k = std::max(0, y - reach); k <= std::min(plane.height - 1, y + reach); ++k) {
      const float* const from = &across.values[across.index(0, k)];
      for (std::size_t x = 0; x < columns; ++x) to[x] += from[x];
    }
  }
  return out;
}

Plane steepness(const Plane& plane) {
  Plane out(plane.width, plane.height);
  for (int y = 0; y < plane.height; ++y)
    for (int x = 0; x < plane.width; ++x) {
      const float across = plane.at(std::min(x + 1, plane.width - 1), y) - plane.at(std::max(x - 1, 0), y);
      const float down = plane.at(x, std::min(y + 1, plane.height - 1)) - plane.at(x, std::max(y - 1, 0));
      out.at(x, y) = std::sqrt(across * across + down * down) / 2;
    }
  return out;
}

}  // namespace counterfoil
