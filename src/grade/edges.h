// Inside the grade room: where a line on the picture passes from light to dark or back, between pixels.
#pragma once

#include <optional>
#include <vector>

#include "grade/reflectance.h"

namespace counterfoil {

// From `from`, `step` long for each unit.
struct ScanLine {
  PicturePoint from, step;

  PicturePoint at(double units) const { return {from.x + units * step.x, from.y + units * step.y}; }
};

enum class Passing { into_dark, into_light };

// The passing of the global threshold that is nearest to `expected` and at most `window` off, in units of the line.
std::optional<double> passing(const Reflectance& reflectance, const ScanLine& line, Passing way,
                              double expected, double window);

// Of an even count the mean of the two in the middle. Precondition: not empty.
double median(std::vector<double> values);

}  // namespace counterfoil
