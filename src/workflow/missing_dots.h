// Inside the print check: lines of dots that are missing all over a page. A dead element of the head leaves a light line
// through all ink along the feed, a missed row one across it.
#pragma once

#include <vector>

#include "base/affine.h"
#include "workflow/printed_ink.h"

namespace counterfoil {

// A column or row of dots that is light through all that should be dark.
struct MissingDots {
  bool column = true;
  double at_mm = 0;     // from the page's left edge, or top edge
  double width_mm = 0;  // as if it were wholly light
  int tags = 0;         // it shows in
};

// A tag whose print was brought to its drawing.
struct InkedTag {
  const DrawnTag* drawn = nullptr;
  TagPrint* print = nullptr;
  const TagInk* ink = nullptr;  // a tag with parts missing, or other than drawn, tells nothing of dots
  Affine to_page;               // from the tag's pixels to mm of the page
};

// Lines that run through at least 3 mm of ink and most of what ink is in their way; columns first, each from its edge on.
std::vector<MissingDots> missing_dots(const std::vector<InkedTag>& tags);

// Takes such lines for as printed as the drawing has them, so that they are blamed once.
void overlook(const std::vector<MissingDots>& lines, const std::vector<InkedTag>& tags);

}  // namespace counterfoil
