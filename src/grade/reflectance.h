// The picture as a scanning spot of a given size sees it: ISO/IEC 15415:2011 measures reflectance through a round
// aperture. A grey value of 255 counts as reflectance 1 and 0 as 0, in proportion: scanners differ in that, and it is
// why none of this is an ISO grade.
#pragma once

#include <vector>

#include "base/grey.h"
#include "recovery/framing.h"

namespace counterfoil {

// Of a module; the standard leaves it to the application. 0.8 is usual for symbols of one size (from memory).
inline constexpr double kApertureModules = 0.8;

class Reflectance {
 public:
  // The part of the picture where a symbol lies with its quiet zone. Precondition: the picture is not empty and
  // outlives this. The spot shows one pixel at least.
  Reflectance(GreyView picture, const Framing& framing);

  // What the spot sees there, 0 to 1; beyond the part what its edge shows.
  double at(PicturePoint place) const;
  // The picture itself, for edges; 0 to 1.
  double raw(PicturePoint place) const;
  double largest() const { return largest_; }
  double least() const { return least_; }
  double contrast() const { return largest_ - least_; }
  double threshold() const { return (largest_ + least_) / 2; }

 private:
  void look(double spot_pixels);
  double seen(int x, int y) const;

  GreyView picture_;
  int left_ = 0, top_ = 0, width_ = 0, height_ = 0;  // of the part
  std::vector<float> seen_;                          // by the spot, 0 to 255
  double largest_ = 0, least_ = 0;
};

}  // namespace counterfoil
