// A QR Code symbol as it was sampled: a grey value for each module instead of black or white. All that is known
// of a symbol's structure starts from here; where the modules lie on a picture is known to grid.h alone.
#pragma once

#include <cstddef>
#include <vector>

namespace counterfoil {

struct SampledSymbol {
  int modules = 0;              // along one side: 21, 25, ... 177
  std::vector<float> darkness;  // modules x modules, row by row from the top left: 1 surely dark, -1 surely
                                // light, 0 unknown (covered by glare, torn off, outside the picture)

  float at(int x, int y) const { return darkness[static_cast<std::size_t>(y * modules + x)]; }
  int version() const { return (modules - 17) / 4; }
};

}  // namespace counterfoil
