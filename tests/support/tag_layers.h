// A tag and a photograph of it while they are being made (tag_scene.cc), for the faults to change
// (tag_faults.cc).
#pragma once

#include <functional>

#include "support/fields.h"
#include "support/tag_scene.h"

namespace counterfoil {

// The tag seen straight on. Places are in modules from the outer top left corner of the symbol.
struct Tag {
  double scale = 0;                     // pixels of the fields below per module
  double modules = 0;                   // along one side of the symbol; sizes of faults go by it
  double across = 0, down = 0;          // where faults are: from (0, 0), the symbol's corner, to here
  bool scattered = false;               // faults are anywhere there and do not aim at finder patterns
  double patches_x = 1, patches_y = 1;  // times the usual number of patches across and down the paper
  double left = 0, top = 0, width = 0, height = 0;  // the paper, in modules; left and top are negative
  Colours paper;                                    // reflectance, ink included
  Shifts shift;   // what is seen at a place lies on the paper at the place plus this, in modules
  Field shade;    // factor of the light
  Colours shine;  // light that is added

  // Calls change(u, v, row, column) for all places.
  void each(const std::function<void(double, double, int, int)>& change) const {
    for (int y = 0; y < paper.rows; ++y) {
      for (int x = 0; x < paper.cols; ++x) change((x + 0.5) / scale + left, (y + 0.5) / scale + top, y, x);
    }
  }
  // A place in the fields' pixels.
  cv::Point2d pixel(double u, double v) const { return {(u - left) * scale, (v - top) * scale}; }
  // As many faults for their share of a symbol's side, or of its area.
  int along(double count) const { return cvRound(count * across / modules); }
  int over(double count) const { return cvRound(count * across * down / (modules * modules)); }
  Field patches(Chance& chance, int columns, int rows) const {
    return chance.smooth_noise(paper.size(), cvRound(columns * patches_x), cvRound(rows * patches_y));
  }
};

struct Pose {
  double turn = 0, tilt_x = 0, tilt_y = 0;  // radians
  double x = 0.5, y = 0.5;                  // where the middle of the symbol is, in shares of the picture
  int cut_side = -1;                        // 0 left, 1 top, 2 right, 3 bottom: moved out there; -1 none
  double cut = 0;                           // share of the symbol's extent that is outside
};

struct Shot {
  Colours picture;
  cv::Matx33d to_tag;        // picture pixels to modules
  cv::Point2d middle;        // of the symbol, in the picture
  double spread = 5;         // how far from there the first of several faults may be, in modules
  double module_pixels = 0;  // as in TagScene
};

// Each changes what is its own and leaves the others alone.
void pose_fault(Pose& pose, Fault fault, double level, Chance& chance);
void tag_fault(Tag& tag, Fault fault, double level, Chance& chance);
void shot_fault(Shot& shot, Fault fault, double level, Chance& chance);

}  // namespace counterfoil
