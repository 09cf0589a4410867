// Which texts of a sheet's tags are too long for their places: all of them at once, where drawing stops at the first.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "sheet/sheet.h"

namespace counterfoil {

// A text that a slot of a tag cannot hold in letters of the least height.
struct TextMisfit {
  std::size_t item = 0;
  std::string design, slot;  // "bag-large", "pocket"
  std::string text;          // as the tag was to show it
  // By how much it is larger than the slot; 0 where it is not.
  double wide_mm = 0, high_mm = 0;
  int lines = 0;
};

// Whether a tag of the item has a place for the text of that name; small designs leave some out.
bool has_slot(const SheetOrder& order, const SheetItem& item, const std::string& slot);

// In the order of the items; nothing is drawn.
std::vector<TextMisfit> text_misfits(const SheetOrder& order, const std::vector<SheetItem>& items);
// Whether there are none, which takes no longer than to the first.
bool have_text_room(const SheetOrder& order, const std::vector<SheetItem>& items);

}  // namespace counterfoil
