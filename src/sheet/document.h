// What all cards and lists on plain paper share: the page, the date, the standing words at the foot.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "sheet/sheet.h"

namespace counterfoil {

struct DocumentOrder {
  double page_width_mm = 210, page_height_mm = 297;
  double dots_per_inch = 300;  // modules are whole dots of this printer in every format
  SheetFormat format = SheetFormat::pdf;
  std::string path;     // PNG and SVG of several pages: "-1", "-2", ... before the ending
  std::string created;  // ISO 8601; same input and date, same bytes. Its day stands at the foot
};

struct DocumentReport {
  std::vector<std::string> files;
  int pages = 0;
  int symbols = 0;
};

// Nothing is printed nearer to the edge: office printers cannot.
inline constexpr double kPaperMarginMm = 12;

// At the foot of every page.
inline constexpr const char* kStandingWords =
    "The maker's manual, the site's procedure and qualified, licensed people decide; where they disagree "
    "with "
    "this paper, they are right.";

}  // namespace counterfoil
