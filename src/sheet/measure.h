// Inside the sheet room: lengths in the units that printing libraries count in.
#pragma once

namespace counterfoil {

inline constexpr double kMmPerInch = 25.4;
inline constexpr double kPointsPerMm = 72 / kMmPerInch;

}  // namespace counterfoil
