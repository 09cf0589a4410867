#include <algorithm>
#include <cmath>

#include "printer/marks.h"

namespace counterfoil {
namespace {

constexpr int kLeastContrast = 40;
constexpr double kLeastRadius = 2.5;                  // pixels; below it edges run into each other
constexpr double kLeastArea = 0.55, kMostArea = 1.7;  // of what is expected: ink spreads, thin print lacks

// A window of the picture, seen by columns or by rows.
struct Window {
  GreyView picture;
  int left = 0, top = 0, width = 0, height = 0;

  double at(int x, int y) const {
    return picture.pixels[static_cast<std::ptrdiff_t>(top + y) * picture.width + left + x];
  }
};

struct Extent {
  double middle = 0;  // mean over the lines, weighted by their lengths
  double area = 0;
  bool cut = false;  // reaches the window's end
};

// Over all lines of `count`, from the first to the last passing through `threshold`; `value(line, i)` along one of them.
template <typename Value>
Extent extent_of(int lines, int length, double threshold, Value value) {
  Extent extent;
  for (int line = 0; line < lines; ++line) {
    int first = 0, last = length - 1;
    while (first < length && value(line, first) >= threshold) ++first;
    if (first == length) continue;
    while (value(line, last) >= threshold) --last;
    if (first == 0 || last == length - 1 || line == 0 || line == lines - 1) {
      extent.cut = true;
      return extent;
    }
    const auto passing = [&](int outside, int inside) {
      const double a = value(line, outside), b = value(line, inside);
      return outside + 0.5 + (inside - outside) * (a - threshold) / (a - b);
    };
    const double from = passing(first - 1, first), to = passing(last + 1, last);
    extent.middle += (to - from) * (from + to) / 2;
    extent.area += to - from;
  }
  if (extent.area > 0) extent.middle /= extent.area;
  return extent;
}

}  // namespace

std::optional<PicturePoint> disc_middle(GreyView picture, PicturePoint expected, double radius,
                                        double reach) {
  // Also false for what is no number.
  if (!(radius >= kLeastRadius && reach > radius && reach < 10'000)) return std::nullopt;
  if (!(expected.x >= reach && expected.y >= reach && expected.x + reach < picture.width &&
        expected.y + reach < picture.height))
    return std::nullopt;
  Window window{picture, static_cast<int>(expected.x - reach), static_cast<int>(expected.y - reach),
                static_cast<int>(2 * reach), static_cast<int>(2 * reach)};
  std::vector<double> values;
  for (int y = 0; y < window.height; ++y)
    for (int x = 0; x < window.width; ++x) values.push_back(window.at(x, y));
  const auto quantile = [&](double share) {
    const auto at =
        values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), at, values.end());
    return *at;
  };
  const double dark = quantile(0.05), light = quantile(0.85);
  if (light - dark < kLeastContrast) return std::nullopt;
  const double threshold = (dark + light) / 2;
  const Extent across =
      extent_of(window.height, window.width, threshold, [&](int y, int x) { return window.at(x, y); });
  const Extent down =
      extent_of(window.width, window.height, threshold, [&](int x, int y) { return window.at(x, y); });
  if (across.cut || down.cut) return std::nullopt;
  const double expected_area = 3.14159265 * radius * radius;
  for (const double area : {across.area, down.area})
    if (!(area > kLeastArea * expected_area && area < kMostArea * expected_area)) return std::nullopt;
  return PicturePoint{window.left + across.middle, window.top + down.middle};
}

}  // namespace counterfoil
