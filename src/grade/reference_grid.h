// Where the modules of a printed symbol lie, as the reference decode algorithm finds them (ISO/IEC 18004:2015, clause
// 12, from memory): the middles of finder and alignment patterns, measured from edge to edge at the global threshold,
// and between them evenly. No bending to what is clearest, as recovery/grid.h does for a damaged symbol: this is
// to show what is wrong with the print.
#pragma once

#include <vector>

#include "grade/reflectance.h"
#include "recovery/framing.h"

namespace counterfoil {

class ReferenceGrid {
 public:
  // `framing` may be off by half a module. Places are modules from the symbol's outer top left corner.
  ReferenceGrid(const Reflectance& reflectance, const Framing& framing);

  int modules() const { return modules_; }
  PicturePoint at(double u, double v) const;
  // What the three finder patterns' middles span, evenly.
  PicturePoint ideal(double u, double v) const;
  Framing ideal_framing() const;

  // Mean distance of neighbouring grid points along either axis, pixels.
  double pixels_x() const { return pixels_x_; }
  double pixels_y() const { return pixels_y_; }
  double axial_non_uniformity() const;
  // Largest distance of a measured grid point from its ideal place, in modules, and where that is. Measured are
  // alignment patterns, both ways, and the timing patterns' modules, each along its pattern.
  double grid_non_uniformity() const { return non_uniformity_; }
  PicturePoint least_uniform() const { return worst_; }  // in modules
  // How much wider dark is than it should be, in modules; less than 0 when it is narrower.
  double growth_x() const { return growth_x_; }
  double growth_y() const { return growth_y_; }

 private:
  void find_finders(const Reflectance& reflectance);
  void find_alignment(const Reflectance& reflectance);
  void follow_timing(const Reflectance& reflectance);
  void measure();
  void count_in(PicturePoint place, double distance);
  PicturePoint deviation(double u, double v) const;

  int modules_;
  PicturePoint origin_, along_x_, along_y_;  // the ideal grid, pixels
  std::vector<int> nodes_;  // along one side: alignment patterns' middles, the first the timing pattern
  std::vector<PicturePoint> off_;  // of each node from the ideal, pixels; row by row
  double pixels_x_ = 0, pixels_y_ = 0;
  double non_uniformity_ = 0;
  PicturePoint worst_;
  double growth_x_ = 0, growth_y_ = 0;
};

}  // namespace counterfoil
