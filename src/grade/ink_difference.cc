#include "grade/ink_difference.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace counterfoil {
namespace {

constexpr std::array kBlurs{0.4, 0.7, 1.0, 1.4, 1.9, 2.6, 3.5};  // pixels
constexpr double kOutlier = 0.35;                                // of the contrast
constexpr float kIgnored = 0.25F;  // ink between paper and that much is a tone, not ink
constexpr int kShifts = 1;         // pixels to all sides that a spot may be off

// grey = paper + x slope_x + y slope_y - contrast (ink + spread edge), by least squares.
struct Tones {
  std::array<double, 5> c{};
  double rms = 0;
};

bool solve5(std::array<std::array<double, 5>, 5> a, std::array<double, 5> b, std::array<double, 5>& x) {
  for (std::size_t i = 0; i < 5; ++i) {
    if (!(std::abs(a[i][i]) > 1e-9)) return false;
    for (std::size_t r = i + 1; r < 5; ++r) {
      const double f = a[r][i] / a[i][i];
      for (std::size_t c = i; c < 5; ++c) a[r][c] -= f * a[i][c];
      b[r] -= f * b[i];
    }
  }
  for (std::size_t i = 5; i-- > 0;) {
    double sum = b[i];
    for (std::size_t c = i + 1; c < 5; ++c) sum -= a[i][c] * x[c];
    x[i] = sum / a[i][i];
  }
  return true;
}

std::array<double, 5> terms_at(const Plane& ink, const Plane& edge, int x, int y) {
  return {1, 2.0 * x / ink.width - 1, 2.0 * y / ink.height - 1, double{ink.at(x, y)}, double{edge.at(x, y)}};
}

double value_of(const std::array<double, 5>& c, const std::array<double, 5>& t) {
  double sum = 0;
  for (std::size_t i = 0; i < 5; ++i) sum += c[i] * t[i];
  return sum;
}

// Twice, the second time without what is far off.
Tones tones_of(const Plane& ink, const Plane& edge, const Plane& scan, int step) {
  Tones tones;
  double most = std::numeric_limits<double>::infinity();
  for (int round = 0; round < 2; ++round) {
    std::array<std::array<double, 5>, 5> a{};
    std::array<double, 5> b{};
    for (int y = 0; y < ink.height; y += step)
      for (int x = 0; x < ink.width; x += step) {
        const auto t = terms_at(ink, edge, x, y);
        if (round > 0 && std::abs(value_of(tones.c, t) - double{scan.at(x, y)}) > most) continue;
        for (std::size_t i = 0; i < 5; ++i) {
          b[i] += t[i] * double{scan.at(x, y)};
          for (std::size_t k = 0; k < 5; ++k) a[i][k] += t[i] * t[k];
        }
      }
    for (std::size_t i = 0; i < 5; ++i) a[i][i] += 1e-3;
    if (!solve5(a, b, tones.c)) return tones;
    most = kOutlier * std::abs(tones.c[3]);
  }
  double sum = 0, n = 0;
  for (int y = 0; y < ink.height; y += step)
    for (int x = 0; x < ink.width; x += step) {
      const double off =
          std::min(most, std::abs(value_of(tones.c, terms_at(ink, edge, x, y)) - double{scan.at(x, y)}));
      sum += off * off;
      n += 1;
    }
  tones.rms = std::sqrt(sum / std::max(1.0, n));
  return tones;
}

InkDifference at_shift(const Plane& meant, const Plane& seen, int dx, int dy) {
  Plane missing(meant.width, meant.height), extra(meant.width, meant.height);
  for (int y = std::max(0, -dy); y < std::min(meant.height, meant.height - dy); ++y)
    for (int x = std::max(0, -dx); x < std::min(meant.width, meant.width - dx); ++x) {
      const float off = meant.at(x, y) - seen.at(x + dx, y + dy);
      missing.at(x, y) = std::clamp((off - kIgnored) / (1 - kIgnored), 0.0F, 1.0F);
      extra.at(x, y) = std::clamp((-off - kIgnored) / (1 - kIgnored), 0.0F, 1.0F);
    }
  return {sum_around(missing, kSpotReach), sum_around(extra, kSpotReach)};
}

}  // namespace

InkPlanes ink_planes(const Plane& drawing, const Plane& scan) {
  Plane ink(drawing.width, drawing.height);
  for (std::size_t i = 0; i < ink.values.size(); ++i) ink.values[i] = 1 - drawing.values[i] / 255;
  InkPlanes planes;
  Tones best;
  double least = std::numeric_limits<double>::infinity();
  for (const double blur : kBlurs) {
    const Plane soft = blurred(ink, blur);
    const Plane edge = steepness(soft);
    const Tones tones = tones_of(soft, edge, scan, 2);
    if (!(tones.rms < least)) break;  // more blur fits worse and worse
    least = tones.rms;
    best = tones;
    planes.meant = soft;
    planes.blur = blur;
  }
  planes.paper = best.c[0];
  planes.contrast = -best.c[3];
  if (!(planes.contrast > 1)) {
    planes.seen = Plane(scan.width, scan.height);
    return planes;
  }
  planes.spread = std::clamp(best.c[4] / best.c[3], -2.0, 2.0);
  const Plane edge = steepness(planes.meant);
  planes.seen = Plane(scan.width, scan.height);
  for (int y = 0; y < scan.height; ++y)
    for (int x = 0; x < scan.width; ++x) {
      const auto t = terms_at(planes.meant, edge, x, y);
      const double paper = best.c[0] + best.c[1] * t[1] + best.c[2] * t[2];
      planes.seen.at(x, y) = static_cast<float>((paper - double{scan.at(x, y)}) / planes.contrast);
    }
  for (std::size_t i = 0; i < edge.values.size(); ++i)
    planes.meant.values[i] =
        std::clamp(planes.meant.values[i] + static_cast<float>(planes.spread) * edge.values[i], 0.0F, 1.0F);
  return planes;
}

InkDifference ink_difference(const Plane& meant, const Plane& seen, float enough) {
  InkDifference best = at_shift(meant, seen, 0, 0);
  const auto over = [&](float value) { return value > enough; };
  if (std::none_of(best.missing.values.begin(), best.missing.values.end(), over) &&
      std::none_of(best.extra.values.begin(), best.extra.values.end(), over))
    return best;
  for (int dy = -kShifts; dy <= kShifts; ++dy)
    for (int dx = -kShifts; dx <= kShifts; ++dx) {
      if (dx == 0 && dy == 0) continue;
      const auto [missing, extra] = at_shift(meant, seen, dx, dy);
      for (std::size_t i = 0; i < missing.values.size(); ++i) {
        if (missing.values[i] + extra.values[i] >= best.missing.values[i] + best.extra.values[i]) continue;
        best.missing.values[i] = missing.values[i];
        best.extra.values[i] = extra.values[i];
      }
    }
  return best;
}

}  // namespace counterfoil
