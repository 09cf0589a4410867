// Pictures of symbols under a map that is known, so that a test can say where each module truly lies. The map is the
// tests' own: it shares nothing with projective.h.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "base/grey.h"
#include "symbol/matrix.h"

namespace counterfoil {

inline constexpr double kInk = 50, kPaper = 200;

// From modules to pixels, a 3 x 3 matrix row by row; its inverse is its adjugate.
struct KnownMap {
  std::array<double, 9> h{};

  PicturePoint operator()(double u, double v) const {
    const double w = h[6] * u + h[7] * v + h[8];
    return {(h[0] * u + h[1] * v + h[2]) / w, (h[3] * u + h[4] * v + h[5]) / w};
  }
  KnownMap inverse() const {
    return {{h[4] * h[8] - h[5] * h[7], h[2] * h[7] - h[1] * h[8], h[1] * h[5] - h[2] * h[4],
             h[5] * h[6] - h[3] * h[8], h[0] * h[8] - h[2] * h[6], h[2] * h[3] - h[0] * h[5],
             h[3] * h[7] - h[4] * h[6], h[1] * h[6] - h[0] * h[7], h[0] * h[4] - h[1] * h[3]}};
  }
};

// Upright, with that many pixels a module.
inline KnownMap upright(double module, double left, double top) {
  return {{module, 0, left, 0, module, top, 0, 0, 1}};
}
// A square of 25 modules seen from the side: its corners lie at (60, 50), (330, 80), (300, 340) and (80, 300) on a
// picture of 400 x 400. By numpy 1.24: linalg.lstsq of the eight equations u h0 + v h1 + h2 - u x h6 - v x h7 = x,
// u h3 + v h4 + h5 - u y h6 - v y h7 = y.
inline constexpr KnownMap kSlanted{
    {9.8506849315, 1.495890411, 60, 0.9698630137, 12.6095890411, 50, -0.0028767123, 0.0086986301, 1}};
inline constexpr int kSlantedSide = 400;  // of the picture

// `shade(u, v)` at the places that `to_modules(x, y)` gives for four points of each pixel.
template <typename ToModules, typename Shade>
GreyPicture picture_of(int width, int height, ToModules to_modules, Shade shade) {
  GreyPicture out{width, height, {}};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      double sum = 0;
      for (const double dy : {0.25, 0.75}) {
        for (const double dx : {0.25, 0.75}) {
          const PicturePoint at = to_modules(x + dx, y + dy);
          sum += shade(at.x, at.y);
        }
      }
      out.pixels.push_back(static_cast<std::uint8_t>(std::clamp(sum / 4 + 0.5, 0.0, 255.0)));
    }
  }
  return out;
}

// A symbol's ink, paper around it.
struct Inked {
  const SymbolMatrix& symbol;

  double operator()(double u, double v) const {
    const double n = symbol.modules;
    if (u < 0 || v < 0 || u >= n || v >= n) return kPaper;
    return symbol.at(static_cast<int>(u), static_cast<int>(v)) ? kInk : kPaper;
  }
};

inline GreyPicture picture_of(int width, int height, const KnownMap& map, const SymbolMatrix& symbol) {
  return picture_of(width, height, map.inverse(), Inked{symbol});
}

// Each pixel the mean of a square of 2 `reach` + 1.
inline GreyPicture blurred(const GreyPicture& from, int reach) {
  GreyPicture out = from;
  for (int y = 0; y < from.height; ++y) {
    for (int x = 0; x < from.width; ++x) {
      int sum = 0, count = 0;
      for (int j = std::max(y - reach, 0); j <= std::min(y + reach, from.height - 1); ++j) {
        for (int i = std::max(x - reach, 0); i <= std::min(x + reach, from.width - 1); ++i, ++count)
          sum += from.pixels[static_cast<std::size_t>(j * from.width + i)];
      }
      out.pixels[static_cast<std::size_t>(y * from.width + x)] = static_cast<std::uint8_t>(sum / count);
    }
  }
  return out;
}

inline GreyPicture inverted(GreyPicture picture) {
  for (auto& pixel : picture.pixels) pixel = static_cast<std::uint8_t>(255 - pixel);
  return picture;
}

inline GreyPicture black_and_white(GreyPicture picture, int threshold = 125) {
  for (auto& pixel : picture.pixels) pixel = pixel < threshold ? 0 : 255;
  return picture;
}

inline double distance(PicturePoint a, PicturePoint b) { return std::hypot(a.x - b.x, a.y - b.y); }

// Pixels per module at a place of the symbol, the smaller of both directions.
inline double module_at(const KnownMap& map, double u, double v) {
  const PicturePoint at = map(u, v);
  return std::min(distance(at, map(u + 1, v)), distance(at, map(u, v + 1)));
}

// How far `place` has the corners of the symbol from where `truth` has them: the largest of the four, in modules.
template <typename Place>
double corner_error(const Place& place, const KnownMap& truth, int modules) {
  double worst = 0;
  for (const double u : {0.0, static_cast<double>(modules)}) {
    for (const double v : {0.0, static_cast<double>(modules)})
      worst = std::max(worst, distance(place(u, v), truth(u, v)) / module_at(truth, u, v));
  }
  return worst;
}

}  // namespace counterfoil
