// What a picture of a calibration sheet shows, to a fraction of a pixel: the middles of discs, the paper's edges against
// something dark, white lines in a solid bar. Pictures are grey, places in their pixels; `page` maps mm from the
// page's top left corner, as it was meant, to the picture.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/grey.h"
#include "base/projective.h"
#include "base/result.h"

namespace counterfoil {

// The middle of a dark disc of about that radius. `reach`: how far from `expected` the picture is looked at; nothing else
// dark may be there. From the outermost edges, so that a white line through the disc, as a dead dot of a print head
// makes it, hardly moves it: a line of an eighth of the radius by less than a hundredth of that. Nothing when there is no such disc.
std::optional<PicturePoint> disc_middle(GreyView picture, PicturePoint expected, double radius, double reach);

struct PaperOutline {
  std::array<PicturePoint, 4>
      corners;         // top left, top right, bottom right, bottom left as the page lies; where the
                       // edges' lines meet, rounded corners or not
  double scatter = 0;  // of the edges about their lines, root mean square, pixels
};
// The paper lies on something darker, of which at least 1 mm shows all round. `refused` names the edge that does not show.
Result<PaperOutline> find_paper(GreyView picture, const Projective& page, double width_mm, double height_mm);

// A solid bar across the page, for dot columns that print nothing.
struct SolidBar {
  double x_mm = 0, y_mm = 0, width_mm = 0, height_mm = 0;
  double dot_mm = 0;    // columns are counted from the page's left edge, from 0
  double blank_mm = 0;  // so far above the bar the paper is white
};
// Nothing when the picture is too coarse to show one column, or does not show the bar.
std::optional<std::vector<int>> dead_columns(GreyView picture, const Projective& page, const SolidBar& bar);

}  // namespace counterfoil
