// Inside the print check: what is printed on a tag besides its symbols, held against its drawing: words, the mark of
// its side, match bars, standing words.
#pragma once

#include <array>
#include <vector>

#include "base/affine.h"
#include "base/grey.h"
#include "workflow/drawn_page.h"
#include "workflow/print_finding.h"

namespace counterfoil {

// What is wrong with one or several parts of a tag that have the same wrong with them.
struct InkFinding {
  PrintFinding finding;
  std::vector<std::array<PicturePoint, 4>> outlines{};  // on the scan
};

// One part of a tag, measured; ink in pixels of the drawing that are wholly inked.
struct PartInk {
  double meant = 0, seen = 0;     // all of it
  double likeness = 0;            // correlation of what is meant and seen; 0 where either is even
  double strength = 0;            // of what should be ink: 1 as dark as the tag's ink, 0 as light as paper
  double missing = 0, extra = 0;  // in the worst spot
  double all_missing = 0, all_extra = 0;
  PicturePoint missing_at{}, extra_at{};  // that spot's middle, in the tag's pixels
  PixelBox box{};
};

struct TagInk {
  Affine map;                             // from the tag's pixels to the scan's
  std::vector<PartInk> parts;             // as those of the drawn tag
  std::array<double, 3> side_likeness{};  // of the side mark with that of each side
  double scan_pixels = 0;                 // to one of the tag, along a side
  bool coarse = false;  // the scan has so few or so blurred pixels that words cannot be judged
};

// `map`: mm of the page to pixels of the scan, right within a millimetre around the tag.
TagInk measured_ink(GreyView scan, const DrawnTag& tag, const Affine& map);

// The worst first; nothing when all is as it should be.
std::vector<InkFinding> ink_findings(const DrawnTag& tag, const TagInk& ink);

}  // namespace counterfoil
