// Inside the print check: what is printed on a tag besides its symbols, held against its drawing: words, the mark of
// its side, match bars, standing words.
#pragma once

#include <array>
#include <vector>

#include "base/affine.h"
#include "base/grey.h"
#include "grade/ink_difference.h"
#include "workflow/drawn_page.h"
#include "workflow/print_finding.h"

namespace counterfoil {

// What is wrong with one or several parts of a tag that have the same wrong with them.
struct InkFinding {
  PrintFinding finding;
  struct Place {
    std::array<PicturePoint, 4> outline{};  // on the scan
    std::string words;                      // "pocket: other words"
  };
  std::vector<Place> places{};
};

// One part of a tag, measured; ink in pixels of the drawing that are wholly inked.
struct PartInk {
  double meant = 0, seen = 0;     // all of it
  double likeness = 0;            // correlation of what is meant and seen; 0 where either is even
  double strength = 0;            // of what should be ink: 1 as dark as the tag's ink, 0 as light as paper
  double missing = 0, extra = 0;  // in the worst spot
  PicturePoint missing_at{}, extra_at{};  // that spot's middle, in the tag's pixels
  PixelBox box{};
};

// A tag on the scan, brought to its drawing.
struct TagPrint {
  Affine map;  // from the tag's pixels to the scan's
  InkPlanes planes;
  double scan_pixels = 0;  // to one of the tag, along a side
  bool coarse = false;     // the scan has so few or so blurred pixels that words cannot be judged
};

// `map`: mm of the page to pixels of the scan, right within a millimetre around the tag.
TagPrint tag_print(GreyView scan, const DrawnTag& tag, const Affine& map);

struct TagInk {
  std::vector<PartInk> parts;             // as those of the drawn tag
  std::array<double, 3> side_likeness{};  // of the side mark with that of each side
};
TagInk measured_ink(const DrawnTag& tag, const TagPrint& print);

// The worst first; nothing when all is as it should be, or when it cannot be told.
std::vector<InkFinding> ink_findings(const DrawnTag& tag, const TagPrint& print, const TagInk& ink);

}  // namespace counterfoil
