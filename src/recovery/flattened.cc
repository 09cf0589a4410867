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
  std::vector<float> across(from.size()), out(from.size());
  const auto run = [&](const std::vector<float>& source, std::vector<float>& target, int line, int step) {
    double sum = 0;
    int count = 0;
    const auto at = [&](int i) { return static_cast<std::size_t>(line + i * step); };
    for (int i = 0; i < std::min(reach, side); ++i) {
      sum += static_cast<double>(source[at(i)]);
      ++count;
    }
    for (int i = 0; i < side; ++i) {
      if (i + reach < side) {
        sum += static_cast<double>(source[at(i + reach)]);
        ++count;
      }
      if (i - reach > 0) {
        sum -= static_cast<double>(source[at(i - reach - 1)]);
        --count;
      }
      target[at(i)] = static_cast<float>(sum / count);
    }
  };
  for (int y = 0; y < side; ++y) run(from, across, y * side, 1);
  for (int x = 0; x < side; ++x) run(across, out, x, side);
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
          sum += grey_at(grey, at.x, at.y);
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
