// A symbol on a tag that is bent, framed as though it were flat.
#pragma once

#include <functional>

#include "recovery/framing.h"
#include "recovery/sampled_symbol.h"
#include "unit/recovery/drawn_symbol.h"

namespace counterfoil {

inline constexpr double kBentModule = 6;  // pixels
inline constexpr int kBentModules = 25, kBentSide = 33 * 6;

inline const SymbolMatrix& bent_matrix() {
  static const SymbolMatrix made = *encode_symbol("CF1:7KWP-M4XE-3N", CorrectionLevel::medium, 2);
  return made;
}

// From a place of the flat frame that it is seen in to the place on the tag; both in modules from the symbol's corner.
using Bend = std::function<PicturePoint(PicturePoint)>;
inline PicturePoint unbent(PicturePoint place) { return place; }

// Around an upright pipe whose axis is behind the symbol's middle, scaled so that the symbol's sides are where the
// frame has them: an arc s from the middle is seen at R sin(s / R).
struct Pipe {
  double radius;  // modules
  static constexpr double kMiddle = kBentModules / 2.0;

  PicturePoint seen(PicturePoint on_tag) const {
    return {kMiddle * (1 + std::sin((on_tag.x - kMiddle) / radius) / std::sin(kMiddle / radius)), on_tag.y};
  }
  // The reverse, as a Bend.
  PicturePoint operator()(PicturePoint seen) const {
    const double sine = (seen.x / kMiddle - 1) * std::sin(kMiddle / radius);
    return {kMiddle + radius * std::asin(std::clamp(sine, -1.0, 1.0)), seen.y};
  }
};

struct BentSymbol {
  Bend tag_of_seen;
  std::function<bool(double u, double v)> is_covered = [](double, double) {
    return false;
  };  // by grey, on the tag

  GreyPicture picture() const {
    return picture_of(kBentSide, kBentSide, frame().inverse(), [this](double u, double v) {
      const PicturePoint at = tag_of_seen({u, v});
      return is_covered(at.x, at.y) ? (kInk + kPaper) / 2 : Inked{bent_matrix()}(at.x, at.y);
    });
  }
  static KnownMap frame() { return upright(kBentModule, 4 * kBentModule, 4 * kBentModule); }
  static Framing framing() { return {kBentModules, Projective{frame().h}, 0, false}; }
};

inline bool is_wrong(const SampledSymbol& sample, int x, int y) {
  return (sample.at(x, y) > 0) != bent_matrix().at(x, y);
}
inline int wrong_modules(const SampledSymbol& sample) {
  int wrong = 0;
  for (int y = 0; y < kBentModules; ++y)
    for (int x = 0; x < kBentModules; ++x) wrong += is_wrong(sample, x, y);
  return wrong;
}

}  // namespace counterfoil
