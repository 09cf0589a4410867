// The parameters by which a printed symbol is judged, and where their grades begin: 4 is the best, 0 the worst.
// Source: ISO/IEC 15415:2011, 7.8, and ISO/IEC 18004:2015, annex G, as far as not said otherwise; the limits of fixed
// patterns other than finder patterns are from memory. What comes of a scanner that nobody has calibrated is a
// check by these formulae, and not an ISO grade.
#pragma once

#include <array>
#include <string_view>

namespace counterfoil {

inline constexpr int kBestGrade = 4;

enum class Parameter {
  decoding,           // by the reference algorithm: 1 or 0
  contrast,           // Rmax - Rmin
  modulation,         // of a module: 2 |R - GT| / SC
  axial,              // |X - Y| / ((X + Y) / 2)
  grid,               // largest distance of a grid point from the ideal grid, in X
  unused_correction,  // 1 - (e + 2 t) / (d - p), worst block
  fixed_patterns,     // module errors in finder, timing and alignment patterns, and the quiet zone
};
inline constexpr std::array kParameters{
    Parameter::decoding, Parameter::contrast,          Parameter::modulation,    Parameter::axial,
    Parameter::grid,     Parameter::unused_correction, Parameter::fixed_patterns};
std::string_view to_text(Parameter parameter);  // "symbol contrast"

// What is graded by a measured value. The limits stand from grade 4 down to grade 1.
enum class Scale {
  contrast,
  modulation,
  axial,
  grid,
  unused_correction,
  corner_errors,     // modules wrong in a finder pattern with its separator and quiet zone
  timing_errors,     // share of modules that are wrong
  alignment_errors,  // share of alignment patterns with a module that is wrong
  mean_of_segments,  // grades of the fixed patterns' parts
};
const std::array<double, 4>& limits_of(Scale scale);
// A value on a limit has its grade; arithmetic may be off by one part in 10^9.
int grade_of(Scale scale, double value);

}  // namespace counterfoil
