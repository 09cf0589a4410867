// Inside the sheet room: lengths in the units that printing libraries count in.
#pragma once

#include <cmath>

namespace counterfoil {

inline constexpr double kMmPerInch = 25.4;
inline constexpr double kPointsPerMm = 72 / kMmPerInch;

// Of so many dots whose middle lies as near to that place as whole dots let it.
inline int first_dot(double middle_mm, int dots, double dots_per_inch) {
  return static_cast<int>(std::lround(middle_mm * dots_per_inch / kMmPerInch - dots / 2.0));
}

}  // namespace counterfoil
