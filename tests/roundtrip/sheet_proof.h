// What is asked of every printed tag, measured on what Poppler draws of its sheet and not on what was meant.
#pragma once

#include <string>
#include <vector>

#include "sheet/sheet.h"

namespace counterfoil {

struct SheetProof {
  int pages = 0, tags = 0, symbols = 0;
  std::vector<std::string> faults;  // design, and what is wrong with it
};

// Prints the items for a printer of so many dots to the inch, and looks at the pages in as many pixels:
// - ZXing-cpp and ZBar both read from each label what its tag says, as often as it has symbols, and nothing else;
// - nothing is printed outside the places for tags but the bars of the match mark with the cut line, and the line of
//   100 mm above the labels; between bars and tag 1 mm is white.
// `slots`: prints them once more without their texts, and finds nothing but that text in a text's slot, no text beyond its
// slot, no empty slot for a text that the tag has, and four modules of white around each symbol.
SheetProof prove_sheet(const Stock& stock, const std::vector<SheetItem>& items, double dots_per_inch,
                       bool slots);

}  // namespace counterfoil
