#include "grade/symbol_check.h"

#include <algorithm>
#include <cmath>

#include "grade/modulation.h"

namespace counterfoil {
namespace {

constexpr double kTooSmall = 2;  // pixels a module

bool is_usable(GreyView picture, const Framing& framing) {
  const int n = framing.modules;
  if (picture.empty() || n < 21 || n > 17 + 4 * kMostVersion || n % 4 != 1) return false;
  const PicturePoint origin = framing.place(0, 0), right = framing.place(n, 0), below = framing.place(0, n);
  for (const auto& [u, v] : {std::pair{0, 0}, std::pair{n, 0}, std::pair{n, n}, std::pair{0, n}}) {
    const PicturePoint at = framing.place(u, v);
    // Written so that no number at all is refused too.
    if (!(at.x >= -n && at.y >= -n && at.x <= picture.width + n && at.y <= picture.height + n)) return false;
  }
  const double x = std::hypot(right.x - origin.x, right.y - origin.y) / n,
               y = std::hypot(below.x - origin.x, below.y - origin.y) / n;
  const double area =
      (right.x - origin.x) * (below.y - origin.y) - (right.y - origin.y) * (below.x - origin.x);
  return x >= kTooSmall && y >= kTooSmall && area > x * y * n * n / 2 && framing.place.is_sane(n);
}

Reflectance reflectance_at(GreyView picture, const Framing& framing) { return {picture, framing}; }

}  // namespace

std::optional<SymbolCheck> check_symbol(GreyView picture, const Framing& framing) {
  if (!is_usable(picture, framing)) return std::nullopt;
  // The grid is found at the threshold of the first look, and the extremes are taken again where it then lies.
  const Reflectance first = reflectance_at(picture, framing);
  SymbolCheck check{ReferenceGrid(first, framing), 0, false, {}, 0, {}, {}, 0, 0, 0, {}, {}};
  const Framing found = check.grid.ideal_framing();
  if (!is_usable(picture, found)) return std::nullopt;
  const Reflectance reflectance = reflectance_at(picture, found);
  const SeenModules seen(reflectance, check.grid);
  const ReferenceDecode decode = reference_decode(seen);

  check.pixels_per_module = std::min(check.grid.pixels_x(), check.grid.pixels_y());
  check.coarse = check.pixels_per_module < kLeastPixelsPerModule;
  check.format = decode.format;
  check.wrong_codewords = decode.wrong_codewords;
  check.right = decode.right;
  check.largest = reflectance.largest();
  check.least = reflectance.least();
  const auto set = [&](Parameter p, double value, int grade) {
    check.parameters[static_cast<std::size_t>(p)] = Graded{value, grade};
  };
  const auto by = [&](Parameter p, Scale scale, double value) { set(p, value, grade_of(scale, value)); };
  set(Parameter::decoding, decode.decoded ? 1 : 0, decode.decoded ? kBestGrade : 0);
  by(Parameter::contrast, Scale::contrast, reflectance.contrast());
  by(Parameter::unused_correction, Scale::unused_correction, decode.unused_correction);
  if (!check.coarse) {
    SymbolModulation modulation{0, 0};
    if (decode.format) modulation = symbol_modulation(seen, decode.format->level);
    set(Parameter::modulation, modulation.least, modulation.grade);
    by(Parameter::axial, Scale::axial, check.grid.axial_non_uniformity());
    by(Parameter::grid, Scale::grid, check.grid.grid_non_uniformity());
    check.fixed = fixed_patterns(seen);
    set(Parameter::fixed_patterns, static_cast<double>(check.fixed.wrong.size()), check.fixed.grade);
  }
  check.grade = kBestGrade;
  for (const Parameter p : kParameters) {
    if (!check[p] || check[p]->grade >= check.grade) continue;
    check.grade = check[p]->grade;
    check.weakest = p;
  }
  return check;
}

}  // namespace counterfoil
