// Damage to the patterns that every symbol has, by which it is found and its grid laid: ISO/IEC 15415:2011, 7.8.5, with
// the segments of ISO/IEC 18004:2015, annex G. The finder patterns' limits are published values; the segments, the
// overlay of modulation and the mean are from memory. The quiet zone between the corners is a segment of our own.
#pragma once

#include <array>
#include <vector>

#include "grade/reference_decode.h"

namespace counterfoil {

struct FixedPatterns {
  int grade = 0;
  // Modules of the wrong colour.
  std::array<int, 3>
      corner_errors{};  // top left, top right, bottom left: finder pattern, separator, quiet zone
  int timing_errors = 0, alignment_errors = 0, quiet_zone_errors = 0;

  struct Module {
    int x = 0, y = 0;
  };
  std::vector<Module> wrong;  // all of them, each once
};

FixedPatterns fixed_patterns(const SeenModules& seen);

}  // namespace counterfoil
