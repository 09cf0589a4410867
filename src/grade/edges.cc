#include "grade/edges.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace counterfoil {
namespace {

constexpr double kStepPixels = 0.5;
constexpr double kMostPixels = 400;  // looked at for one edge

}  // namespace

std::optional<double> passing(const Reflectance& reflectance, const ScanLine& line, Passing way,
                              double expected, double window) {
  const double pixels = std::hypot(line.step.x, line.step.y);
  if (!(pixels * window > 0) || pixels * window > kMostPixels) return std::nullopt;
  const double step = kStepPixels / pixels;
  const double sign = way == Passing::into_dark ? 1 : -1;
  const auto above = [&](double at) {
    return sign * (reflectance.raw(line.at(at)) - reflectance.threshold());
  };
  std::optional<double> nearest;
  double before = above(expected - window);
  for (double at = expected - window + step; at <= expected + window; at += step) {
    const double now = above(at);
    if (before > 0 && now <= 0) {
      const double place = at - step * now / (now - before);
      if (!nearest || std::abs(place - expected) < std::abs(*nearest - expected)) nearest = place;
    }
    before = now;
  }
  return nearest;
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 != 0) return *middle;
  return (*middle + *std::max_element(values.begin(), middle)) / 2;
}

}  // namespace counterfoil
