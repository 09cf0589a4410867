// Inside the sheet room: lengths in the units that printing libraries count in.
#pragma once

#include <cmath>

namespace counterfoil {

inline constexpr double kMmPerInch = 25.4;
inline constexpr double kPointsPerMm = 72 / kMmPerInch;

// The nearest place that begins with a whole dot.
inline double snapped(double mm, double dots_per_inch) {
  const double dot_mm = kMmPerInch / dots_per_inch;
  return std::round(mm / dot_mm) * dot_mm;
}

}  // namespace counterfoil
