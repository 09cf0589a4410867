#include "printer/fit.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>

#include "base/text.h"

namespace counterfoil {
namespace {

constexpr std::size_t kLeastPlaces = 4;
constexpr double kScatters = 4;
// The median absolute deviation of two-dimensional normal scatter, times this, is its standard deviation a side.
constexpr double kPerMedian = 1 / 1.1774;

struct Sums {
  double n = 0;
  PicturePoint meant, measured;   // means
  double uu = 0, uv = 0, vv = 0;  // of the centred meant places
  double determinant() const { return uu * vv - uv * uv; }
};

Sums sums_of(const std::vector<Correspondence>& places) {
  Sums s;
  s.n = static_cast<double>(places.size());
  for (const auto& p : places) {
    s.meant = {s.meant.x + p.meant.x / s.n, s.meant.y + p.meant.y / s.n};
    s.measured = {s.measured.x + p.measured.x / s.n, s.measured.y + p.measured.y / s.n};
  }
  for (const auto& p : places) {
    const double u = p.meant.x - s.meant.x, v = p.meant.y - s.meant.y;
    s.uu += u * u;
    s.uv += u * v;
    s.vv += v * v;
  }
  return s;
}

std::optional<Affine> plain_fit(const std::vector<Correspondence>& places) {
  if (places.size() < kLeastPlaces) return std::nullopt;
  const Sums s = sums_of(places);
  const double spread = s.uu + s.vv;
  // Also true for what is no number. On a line the determinant is 0; a thousandth of the other way is too little.
  if (!(s.determinant() > 1e-6 * spread * spread)) return std::nullopt;
  double ux = 0, vx = 0, uy = 0, vy = 0;
  for (const auto& p : places) {
    const double u = p.meant.x - s.meant.x, v = p.meant.y - s.meant.y;
    const double x = p.measured.x - s.measured.x, y = p.measured.y - s.measured.y;
    ux += u * x;
    vx += v * x;
    uy += u * y;
    vy += v * y;
  }
  const double d = s.determinant();
  Affine map;
  map.xx = (s.vv * ux - s.uv * vx) / d;
  map.xy = (s.uu * vx - s.uv * ux) / d;
  map.yx = (s.vv * uy - s.uv * vy) / d;
  map.yy = (s.uu * vy - s.uv * uy) / d;
  map.x0 = s.measured.x - map.xx * s.meant.x - map.xy * s.meant.y;
  map.y0 = s.measured.y - map.yx * s.meant.x - map.yy * s.meant.y;
  return map;
}

double distance(const Affine& map, const Correspondence& place) {
  const PicturePoint at = map(place.meant);
  return std::hypot(at.x - place.measured.x, at.y - place.measured.y);
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace

Result<AffineFit> fit_affine(const std::vector<Correspondence>& places, double tolerance) {
  std::vector<Correspondence> kept = places;
  std::vector<std::size_t> index(places.size());
  for (std::size_t i = 0; i < index.size(); ++i) index[i] = i;
  AffineFit fit;
  const Error too_few =
      refused("too few marks lie where they can be measured: " + counted(kept.size(), "mark"));
  // One at a time, the farthest first: one gross error draws the map towards itself and makes good places look bad.
  for (const std::size_t most_left_out = places.size() / 3;;) {
    const auto map = plain_fit(kept);
    if (!map) return too_few;
    fit.map = *map;
    std::vector<double> distances;
    for (const auto& place : kept) distances.push_back(distance(*map, place));
    const auto farthest = std::max_element(distances.begin(), distances.end());
    const double limit = std::max(tolerance, kScatters * kPerMedian * median(distances));
    if (*farthest <= limit || fit.left_out.size() == most_left_out) break;
    const auto at = farthest - distances.begin();
    fit.left_out.push_back(index[static_cast<std::size_t>(at)]);
    kept.erase(kept.begin() + at);
    index.erase(index.begin() + at);
  }
  double squares = 0;
  for (const auto& place : kept) {
    const double d = distance(fit.map, place);
    squares += d * d;
    fit.farthest = std::max(fit.farthest, d);
  }
  const Sums s = sums_of(kept);
  fit.rms = std::sqrt(squares / s.n);
  if (!(fit.rms <= tolerance)) {
    char text[96];
    std::snprintf(text, sizeof text,
                  "the marks do not lie on a straight map: they are %.2f off, at most %.2f", fit.rms,
                  tolerance);
    return refused(text);
  }
  // Two measured coordinates a place, six numbers fitted.
  const double freedom = 2 * s.n - 6;
  const double variance = squares / std::max(freedom, 1.0);
  fit.place_error = std::sqrt(variance / s.n);
  fit.x_scale_error = std::sqrt(variance * s.vv / s.determinant());
  fit.y_scale_error = std::sqrt(variance * s.uu / s.determinant());
  return fit;
}

}  // namespace counterfoil
