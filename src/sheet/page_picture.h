// One page of a sheet as it should come out on paper, for what checks a print of it: in greys, in memory, with the places
// of all that is filled in for each tag.
#pragma once

#include <string>
#include <vector>

#include "base/grey.h"
#include "base/result.h"
#include "sheet/sheet.h"

namespace counterfoil {

// A place that tells tags apart.
struct PageArea {
  enum class Kind { design, symbol, text, match_bars };

  TagPlace tag;
  Kind kind = Kind::text;
  std::string name;  // of a text, as the slot has it: "number", "pocket"
  Box box;           // mm of the page
};

struct PagePicture {
  GreyPicture grey;  // 255: nothing is printed
  double pixels_per_mm = 0;
  std::vector<PageArea> areas;  // tag by tag; of each the whole design first
};

// `page`: from 0. Drawn as draw_sheet draws it, and refused with the same words; the printer's correction is taken to do
// its work.
Result<PagePicture> picture_of_page(const SheetOrder& order, const std::vector<SheetItem>& items, int page,
                                    double pixels_per_mm);

}  // namespace counterfoil
