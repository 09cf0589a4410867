#include "recovery/flattened.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "recovery/pixel.h"

namespace counterfoil {
namespace {

// What a pixel is compared with, in modules. Narrow windows follow shadows, creases and oil best; with the
// wider one the insides of finder patterns, three modules of one colour, stay what they are.
constexpr std::array kWindows = {3, 5};

// Means over a square of 2 `reach` + 1 pixels, cut off at the edges, by running sums.
std::vector<float> box_mean(const std::vector<float>& from, int side, int reach) {
  const auto length = static_cast<std::size_t>(side), wide = static_cast<std::size_t>(reach);
  std::vector<double> share;  // one over how many of a line are within reach
  for (std::size_t i = 0; i < length; ++i) {
    const std::size_t first = i - std::min(i, wide), last = std::min(i + wide, length - 1);
    share.push_back(1.0 / static_cast<double>(last - first + 1));
  }
  std::vector<float> out(from.size());
  std::vector<double> column(length, 0.0);  // the sums down to the row in hand
  const auto change = [&](std::size_t row, double sign) {
    const float* values = from.data() + row * length;
    for (std::size_t x = 0; x < length; ++x) column[x] += sign * static_cast<double>(values[x]);
  };
  for (std::size_t y = 0; y < std::min(wide, length); ++y) change(y, 1);
  for (std::size_t y = 0; y < length; ++y) {
    if (y + wide < length) change(y + wide, 1);
    if (y > wide) change(y - wide - 1, -1);
    float* row = out.data() + y * length;
    double sum = 0;
    for (std::size_t x = 0; x < std::min(wide, length); ++x) sum += column[x];
    for (std::size_t x = 0; x < length; ++x) {
      if (x + wide < length) sum += column[x + wide];
      if (x > wide) sum -= column[x - wide - 1];
      row[x] = static_cast<float>(sum * share[x] * share[y]);
    }
  }
  return out;
}

}  // namespace

Flattened::Flattened(GreyView grey, const Framing& framing)
    : modules_(framing.modules), side_((framing.modules + 2 * kMargin) * kPixels) {
  const auto pixels = static_cast<std::size_t>(side_) * static_cast<std::size_t>(side_);
  std::vector<float> value(pixels);
  // A module that is larger on the picture is averaged over a few points of each small pixel.
  const auto a = framing.place(modules_ / 2.0, modules_ / 2.0),
             b = framing.place(modules_ / 2.0 + 1, modules_ / 2.0);
  const int fine = std::clamp(static_cast<int>(std::hypot(a.x - b.x, a.y - b.y) / kPixels + 0.5), 1, 4);
  std::size_t i = 0;
  for (int y = 0; y < side_; ++y) {
    for (int x = 0; x < side_; ++x, ++i) {
      float sum = 0;
      for (int sy = 0; sy < fine; ++sy) {
        for (int sx = 0; sx < fine; ++sx) {
          const auto at = framing.place((x + (sx + 0.5) / fine) / kPixels - kMargin,
                                        (y + (sy + 0.5) / fine) / kPixels - kMargin);
          sum += quick_grey_at(grey, at.x, at.y);
        }
      }
      value[i] = sum / static_cast<float>(fine * fine);
    }
  }

  constexpr float kNoise = 3;  // grey levels; keeps a flat area flat
  std::vector<float> squares(pixels), darkness(pixels);
  for (std::size_t k = 0; k < pixels; ++k) squares[k] = value[k] * value[k];
  const float sign = framing.inverted ? -1 : 1;
  for (const int window : kWindows) {
    const int reach = window * kPixels / 2;
    const auto mean = box_mean(value, side_, reach), mean_square = box_mean(squares, side_, reach);
    for (std::size_t k = 0; k < pixels; ++k) {
      const float deviation = std::sqrt(std::max(mean_square[k] - mean[k] * mean[k], 0.0F));
      darkness[k] += std::clamp(sign * (mean[k] - value[k]) / (deviation + kNoise), -1.0F, 1.0F) /
                     static_cast<float>(kWindows.size());
    }
  }
  darkness_ = box_mean(darkness, side_, kPixels * 3 / 8);
}

}  // namespace counterfoil
