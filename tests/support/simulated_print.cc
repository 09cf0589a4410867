#include "support/simulated_print.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace counterfoil {
namespace {

constexpr double kMmPerInch = 25.4;
constexpr int kSamples = 2;  // a side of each pixel

class PrintedPaper {
 public:
  PrintedPaper(const GreyPicture& page, const SimulatedPrinter& printer, const Paper& paper)
      : page_(page),
        paper_(paper),
        to_page_(printer.map.inverse()),
        dots_per_mm_(printer.dots_per_inch / kMmPerInch),
        spread_(printer.spread_mm * dots_per_mm_),
        dead_(static_cast<std::size_t>(page.width), false) {
    for (const int column : printer.dead_columns)
      if (column >= 0 && column < page.width) dead_[static_cast<std::size_t>(column)] = true;
  }

  double at(double x_mm, double y_mm) const {
    if (x_mm < 0 || y_mm < 0 || x_mm >= paper_.width_mm || y_mm >= paper_.height_mm) return paper_.backing;
    const PicturePoint p = to_page_({x_mm, y_mm});
    const double x = p.x * dots_per_mm_, y = p.y * dots_per_mm_;
    const bool ink = is_ink(x, y) || is_ink(x - spread_, y) || is_ink(x + spread_, y) ||
                     is_ink(x, y - spread_) || is_ink(x, y + spread_);
    return ink ? paper_.ink : paper_.white;
  }

 private:
  bool is_ink(double x, double y) const {
    if (x < 0 || y < 0 || x >= page_.width || y >= page_.height) return false;
    const auto column = static_cast<std::size_t>(x), row = static_cast<std::size_t>(y);
    return page_.pixels[row * static_cast<std::size_t>(page_.width) + column] < 128 && !dead_[column];
  }

  const GreyPicture& page_;
  const Paper& paper_;
  Affine to_page_;
  double dots_per_mm_, spread_;
  std::vector<bool> dead_;
};

void blur_rows(std::vector<float>& values, std::size_t width, std::size_t height, double sigma,
               bool upright) {
  const int reach = static_cast<int>(std::ceil(3 * sigma));
  std::vector<float> weights;
  float sum = 0;
  for (int i = -reach; i <= reach; ++i) {
    weights.push_back(static_cast<float>(std::exp(-i * i / (2 * sigma * sigma))));
    sum += weights.back();
  }
  for (auto& weight : weights) weight /= sum;
  const std::size_t lines = upright ? width : height, length = upright ? height : width;
  const std::size_t step = upright ? width : 1, next = upright ? 1 : width;
  std::vector<float> line(length);
  for (std::size_t l = 0; l < lines; ++l) {
    for (std::size_t i = 0; i < length; ++i) line[i] = values[l * next + i * step];
    for (std::size_t i = 0; i < length; ++i) {
      float value = 0;
      for (int k = -reach; k <= reach; ++k) {
        const auto at = std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(i) + k, 0,
                                                   static_cast<std::ptrdiff_t>(length) - 1);
        value += weights[static_cast<std::size_t>(k + reach)] * line[static_cast<std::size_t>(at)];
      }
      values[l * next + i * step] = value;
    }
  }
}

template <typename ToPaper>
GreyPicture seen(const PrintedPaper& paper, int width, int height, const Optics& optics, ToPaper to_paper) {
  std::vector<float> values;
  values.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      double sum = 0;
      for (int j = 0; j < kSamples; ++j)
        for (int i = 0; i < kSamples; ++i) {
          const PicturePoint p = to_paper(x + (i + 0.5) / kSamples, y + (j + 0.5) / kSamples);
          sum += paper.at(p.x, p.y);
        }
      values.push_back(static_cast<float>(sum / (kSamples * kSamples)));
    }
  for (const bool upright : {false, true})
    blur_rows(values, static_cast<std::size_t>(width), static_cast<std::size_t>(height), optics.blur_pixels,
              upright);
  std::mt19937 random(optics.seed);
  GreyPicture out{width, height, {}};
  out.pixels.reserve(values.size());
  for (const float value : values) {
    // Four even ones summed are near enough to normal, and the same with every library.
    double noise = 0;
    for (int i = 0; i < 4; ++i) noise += static_cast<double>(random()) / 4294967295.0 - 0.5;
    out.pixels.push_back(static_cast<std::uint8_t>(
        std::clamp(std::lround(double{value} + optics.noise * noise * std::numbers::sqrt3), 0L, 255L)));
  }
  return out;
}

}  // namespace

GreyPicture scan_of(const GreyPicture& page, const SimulatedPrinter& printer, const Paper& paper,
                    const Glass& glass, const Optics& optics) {
  const double turn = glass.turn_deg * std::numbers::pi / 180, c = std::cos(turn), s = std::sin(turn);
  // The box round the turned paper, with its margin.
  double left = 0, top = 0, right = 0, bottom = 0;
  for (const double x : {0.0, paper.width_mm})
    for (const double y : {0.0, paper.height_mm}) {
      left = std::min(left, c * x - s * y);
      right = std::max(right, c * x - s * y);
      top = std::min(top, s * x + c * y);
      bottom = std::max(bottom, s * x + c * y);
    }
  left -= glass.margin_mm;
  top -= glass.margin_mm;
  const double per_x = glass.dots_per_inch_x / kMmPerInch, per_y = glass.dots_per_inch_y / kMmPerInch;
  const int width = static_cast<int>((right + glass.margin_mm - left) * per_x);
  const int height = static_cast<int>((bottom + glass.margin_mm - top) * per_y);
  return seen(PrintedPaper(page, printer, paper), width, height, optics, [&](double px, double py) {
    const double x = px / per_x + left, y = py / per_y + top;
    return PicturePoint{c * x + s * y, -s * x + c * y};
  });
}

GreyPicture photo_of(const GreyPicture& page, const SimulatedPrinter& printer, const Paper& paper,
                     const Projective& view, int width, int height, const Optics& optics) {
  // The way back: the adjugate matrix.
  const auto& m = view.m;
  const Projective back{{m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
                         m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
                         m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3]}};
  return seen(PrintedPaper(page, printer, paper), width, height, optics,
              [&](double x, double y) { return back(x, y); });
}

}  // namespace counterfoil
