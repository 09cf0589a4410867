#include "grade/light_lines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <iterator>

#include "grade/edges.h"
#include "recovery/pixel.h"

namespace counterfoil {
namespace {

constexpr double kEdge = 0.22;                // of a module, where its neighbour shines in
constexpr double kLeastDark = 3;              // modules in the way
constexpr double kLeastDepth = 0.25;          // of the contrast, on the mean of the line
constexpr double kLeastShare = 0.7;           // of what is dark in its way is lighter
constexpr double kMostWidth = 0.75;           // modules
constexpr std::array kAcross{0.3, 0.5, 0.7};  // places in each module that are looked at

// Whether the module that `along` (a place across the line) and `row` (a module along it) lie in is dark, and the next
// one too when its edge is near.
bool is_dark(const std::vector<std::uint8_t>& dark, int modules, bool upright, double along, int row) {
  const auto at = [&](int place) {
    if (place < 0 || place >= modules) return false;
    return dark[static_cast<std::size_t>(upright ? row * modules + place : place * modules + row)] != 0;
  };
  const int module = static_cast<int>(std::floor(along));
  const double inside = along - module;
  return at(module) && (inside > kEdge || at(module - 1)) && (inside < 1 - kEdge || at(module + 1));
}

double usual(const std::vector<double>& mean) {
  std::vector<double> seen;
  std::copy_if(mean.begin(), mean.end(), std::back_inserter(seen), [](double m) { return m >= 0; });
  return seen.empty() ? -1 : median(seen);
}

std::vector<LightLine> lines_of(GreyView picture, const ReferenceGrid& grid,
                                const std::vector<std::uint8_t>& dark, bool upright, double light) {
  const int n = grid.modules();
  const double step = 1 / std::clamp(upright ? grid.pixels_x() : grid.pixels_y(), 1.0, 100.0);
  std::vector<double> places;
  std::vector<std::vector<double>> values;
  std::vector<double> mean;
  for (double along = step / 2; along < n; along += step) {
    places.push_back(along);
    auto& seen = values.emplace_back();
    for (int row = 0; row < n; ++row) {
      if (!is_dark(dark, n, upright, along, row)) continue;
      for (const double across : kAcross) {
        const PicturePoint at = upright ? grid.at(along, row + across) : grid.at(row + across, along);
        seen.push_back(static_cast<double>(grey_at(picture, at.x, at.y)));
      }
    }
    double sum = 0;
    for (const double v : seen) sum += v;
    const bool enough = static_cast<double>(seen.size()) >= kLeastDark * static_cast<double>(kAcross.size());
    mean.push_back(enough ? sum / static_cast<double>(seen.size()) : -1);
  }
  const double base = usual(mean);
  std::vector<LightLine> lines;
  if (base < 0 || light - base < 1) return lines;
  const auto lifted = [&](std::size_t i) {
    if (mean[i] < base + kLeastDepth * (light - base)) return false;
    const auto lighter = std::count_if(values[i].begin(), values[i].end(),
                                       [&](double v) { return v > base + kLeastDepth / 2 * (light - base); });
    return static_cast<double>(lighter) >= kLeastShare * static_cast<double>(values[i].size());
  };
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (!lifted(i)) continue;
    std::size_t first = i, last = i;
    while (last + 1 < places.size() && lifted(last + 1)) ++last;
    i = last;
    // The foot of the line is lifted too.
    if (first > 0) --first;
    if (last + 1 < places.size()) ++last;
    double weight = 0, sum = 0;
    for (std::size_t k = first; k <= last; ++k) {
      const double w = mean[k] < 0 ? 0 : std::max(0.0, (mean[k] - base) / (light - base));
      weight += w;
      sum += w * places[k];
    }
    const double width = weight * step;
    if (width <= kMostWidth) lines.push_back({upright, sum / weight, width});
  }
  return lines;
}

}  // namespace

std::vector<LightLine> light_lines(GreyView picture, const ReferenceGrid& grid,
                                   const std::vector<std::uint8_t>& dark) {
  const int n = grid.modules();
  std::vector<LightLine> lines;
  if (picture.empty() || dark.size() != static_cast<std::size_t>(n) * static_cast<std::size_t>(n))
    return lines;
  std::vector<double> light;
  for (int y = 0; y < n; ++y)
    for (int x = 0; x < n; ++x)
      if (dark[static_cast<std::size_t>(y * n + x)] == 0) {
        const PicturePoint at = grid.at(x + 0.5, y + 0.5);
        light.push_back(static_cast<double>(grey_at(picture, at.x, at.y)));
      }
  if (light.empty()) return lines;
  const double paper = median(light);
  for (const bool upright : {true, false}) {
    const auto more = lines_of(picture, grid, dark, upright, paper);
    lines.insert(lines.end(), more.begin(), more.end());
  }
  return lines;
}

bool would_show(const std::vector<std::uint8_t>& dark, int modules, bool upright, double at) {
  if (!(at >= 0 && at < modules)) return false;
  int count = 0;
  for (int row = 0; row < modules; ++row)
    if (is_dark(dark, modules, upright, at, row)) ++count;
  return count >= kLeastDark;
}

}  // namespace counterfoil
