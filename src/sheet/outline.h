// Inside the sheet room: a stock's labels in light grey, to be looked at beside the black that is printed: what
// nothing may be printed on is shaded, what is left is white, holes are circles.
#pragma once

#include "sheet/canvas.h"
#include "sheet/places.h"
#include "sheet/stock.h"

namespace counterfoil {

// A place for one tag, as the outline shows it.
struct OutlinedPlace {
  int label = 0;
  bool box_half = false;
  bool in_pair = true;  // or else it is left to single tags
  Box printable;
};
// Of one page; of a stock whose pairs need two pages, the page of the box half or of the bag half.
std::vector<OutlinedPlace> outlined_places(const Stock& stock, bool box_page);

void draw_outline(Canvas& canvas, const Stock& stock, bool box_page);
// Hatches the labels that a part sheet has no more: used, or spoiled.
void draw_used(Canvas& canvas, const Stock& stock, const PartSheet& part);

}  // namespace counterfoil
