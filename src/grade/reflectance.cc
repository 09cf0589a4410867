#include "grade/reflectance.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "recovery/pixel.h"

namespace counterfoil {
namespace {

constexpr double kQuietModules = 4;
constexpr double kLargestSpotPixels = 200;

}  // namespace

Reflectance::Reflectance(GreyView picture, const Framing& framing) : picture_(picture) {
  const double first = -kQuietModules, last = framing.modules + kQuietModules;
  double left = picture.width, top = picture.height, right = 0, bottom = 0;
  for (const double u : {first, last}) {
    for (const double v : {first, last}) {
      const PicturePoint at = framing.place(u, v);
      left = std::min(left, at.x), right = std::max(right, at.x);
      top = std::min(top, at.y), bottom = std::max(bottom, at.y);
    }
  }
  const auto inside = [](double at, int size) { return static_cast<int>(std::clamp(at, 0.0, size - 1.0)); };
  left_ = inside(left - 1, picture.width);
  top_ = inside(top - 1, picture.height);
  width_ = inside(right + 1, picture.width) - left_ + 1;
  height_ = inside(bottom + 1, picture.height) - top_ + 1;
  if (width_ < 1 || height_ < 1) left_ = top_ = 0, width_ = height_ = 1;

  const double half = framing.modules / 2.0;
  const PicturePoint a = framing.place(half, half), b = framing.place(half + 1, half),
                     c = framing.place(half, half + 1);
  const double module = std::min(std::hypot(b.x - a.x, b.y - a.y), std::hypot(c.x - a.x, c.y - a.y));
  look(std::clamp(module * kApertureModules, 1.0, kLargestSpotPixels));

  // Middles of the spot that keep it inside the quiet zone, a pixel apart.
  const double step = 1 / std::clamp(module, 1.0, kLargestSpotPixels);
  largest_ = 0;
  least_ = 1;
  for (double v = first + 0.5; v <= last - 0.5; v += step) {
    for (double u = first + 0.5; u <= last - 0.5; u += step) {
      const PicturePoint place = framing.place(u, v);
      const double r = seen(inside(place.x, picture.width), inside(place.y, picture.height)) / 255;
      largest_ = std::max(largest_, r);
      least_ = std::min(least_, r);
    }
  }
}

void Reflectance::look(double spot_pixels) {
  const double radius = spot_pixels / 2;
  const int reach = static_cast<int>(radius);
  std::vector<int> halves;  // of the spot's rows, from its middle down
  int pixels = 0;
  for (int dy = 0; dy <= reach; ++dy) {
    halves.push_back(static_cast<int>(std::sqrt(radius * radius - dy * dy)));
    pixels += (dy == 0 ? 1 : 2) * (2 * halves.back() + 1);
  }
  // Sums along each row, so that a row of the spot is one difference.
  const auto across = static_cast<std::size_t>(width_ + 2 * reach + 1);
  std::vector<std::uint32_t> sums(across * static_cast<std::size_t>(height_ + 2 * reach));
  for (int y = -reach; y < height_ + reach; ++y) {
    const std::uint8_t* row =
        picture_.pixels +
        static_cast<std::ptrdiff_t>(std::clamp(top_ + y, 0, picture_.height - 1)) * picture_.width;
    std::uint32_t* sum = sums.data() + static_cast<std::size_t>(y + reach) * across;
    for (int x = -reach; x < width_ + reach; ++x, ++sum)
      sum[1] = sum[0] + row[std::clamp(left_ + x, 0, picture_.width - 1)];
  }
  seen_.resize(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_));
  std::size_t i = 0;
  for (int y = 0; y < height_; ++y) {
    for (int x = 0; x < width_; ++x, ++i) {
      std::uint32_t sum = 0;
      for (int dy = -reach; dy <= reach; ++dy) {
        const int half = halves[static_cast<std::size_t>(std::abs(dy))];
        const std::uint32_t* row = sums.data() + static_cast<std::size_t>(y + reach + dy) * across +
                                   static_cast<std::size_t>(x + reach);
        sum += row[half + 1] - row[-half];
      }
      seen_[i] = static_cast<float>(sum) / static_cast<float>(pixels);
    }
  }
}

double Reflectance::seen(int x, int y) const {
  const int column = std::clamp(x - left_, 0, width_ - 1), row = std::clamp(y - top_, 0, height_ - 1);
  return static_cast<double>(seen_[static_cast<std::size_t>(row) * static_cast<std::size_t>(width_) +
                                   static_cast<std::size_t>(column)]);
}

double Reflectance::at(PicturePoint place) const {
  const double x = std::clamp(place.x - 0.5, 0.0, picture_.width - 1.0),
               y = std::clamp(place.y - 0.5, 0.0, picture_.height - 1.0);
  const int ix = static_cast<int>(x), iy = static_cast<int>(y);
  const double fx = x - ix, fy = y - iy;
  const double upper = seen(ix, iy) * (1 - fx) + seen(ix + 1, iy) * fx;
  const double lower = seen(ix, iy + 1) * (1 - fx) + seen(ix + 1, iy + 1) * fx;
  return (upper * (1 - fy) + lower * fy) / 255;
}

double Reflectance::raw(PicturePoint place) const {
  return static_cast<double>(grey_at(picture_, place.x, place.y)) / 255;
}

}  // namespace counterfoil
