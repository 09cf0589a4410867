// One printed symbol judged by the parameters of thresholds.h, from a scan and the place of the symbol on it.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "base/grey.h"
#include "grade/fixed_patterns.h"
#include "grade/reference_grid.h"
#include "grade/thresholds.h"
#include "recovery/layout.h"

namespace counterfoil {

// Below so many pixels a module, edges are too coarse to judge places and modulation by (600 dots per inch for 0.5 mm).
inline constexpr double kLeastPixelsPerModule = 10;

struct Graded {
  double value = 0;
  int grade = 0;
};

struct SymbolCheck {
  ReferenceGrid grid;
  double pixels_per_module = 0;
  bool coarse = false;  // too few pixels: modulation, non-uniformities and fixed patterns are not given
  std::array<std::optional<Graded>, kParameters.size()> parameters;  // in the order of kParameters
  int grade = 0;                                                     // the lowest of those given
  Parameter weakest = Parameter::decoding;                           // the first that has it

  std::optional<SymbolFormat> format;
  int wrong_codewords = 0;
  double largest = 0, least = 0;  // Rmax, Rmin
  FixedPatterns fixed;
  std::vector<std::uint8_t> right;  // when decoded: all modules as they should be, 1 dark

  const std::optional<Graded>& operator[](Parameter p) const {
    return parameters[static_cast<std::size_t>(p)];
  }
};

// Nothing when the framing is none: modules that no version has, corners that are not on the picture, modules of less
// than 2 pixels.
std::optional<SymbolCheck> check_symbol(GreyView picture, const Framing& framing);

}  // namespace counterfoil
