// The projective map between a flat thing, such as a tag or a sheet of paper, and its picture. Source: Hartley & Zisserman, Multiple View Geometry, 2nd
// edition, section 4.1 (the direct linear transformation, with the last element fixed at one), from memory.
#pragma once

#include <array>
#include <optional>
#include <span>

#include "base/grey.h"

namespace counterfoil {

// Where a place (u, v) of the one plane lies in the other: of a symbol, in modules from its outer top left corner, on the
// picture.
struct Anchor {
  double u = 0, v = 0;
  PicturePoint at;
  double weight = 1;
};

struct Projective {
  std::array<double, 9> m{};  // row by row; the last is 1

  PicturePoint operator()(double u, double v) const {
    const double w = m[6] * u + m[7] * v + m[8];
    return {(m[0] * u + m[1] * v + m[2]) / w, (m[3] * u + m[4] * v + m[5]) / w};
  }
  // Whether all of the square from 0 to `side`, and a module or so around it, lies on this side of the horizon
  // and keeps its sense of turning.
  bool is_sane(double side) const;
};

// Least squares over four anchors or more; nothing when they lie too badly, such as all on one line. `rigour`, as a share
// of all weights, holds perspective down where the anchors hardly tell it; 0 takes them at their word.
inline constexpr double kUsualRigour = 1e-4;
std::optional<Projective> fit_projective(std::span<const Anchor> anchors, double rigour = kUsualRigour);

}  // namespace counterfoil
