// Where tags lie on sheets: which labels of the first sheet are left, pairs never over two sheets, and the order
// in which sheets are filled. Geometry only; what is printed there is sheet.h's.
#pragma once

#include <cstddef>
#include <vector>

#include "base/result.h"
#include "sheet/stock.h"

namespace counterfoil {

// What is left of the first sheet. Labels are counted as people do: from 1, row by row from the top left.
struct PartSheet {
  int start_at = 1;          // the labels before it are gone
  std::vector<int> skipped;  // and these, used or spoiled; any order

  bool is_whole() const { return start_at == 1 && skipped.empty(); }
};

enum class SheetSequence {
  across,  // each sheet row by row before the next
  // The sheets are piled and the pile is cut: each cut stack is in sequence, and stack after stack, in the order
  // of the places on a sheet, goes on with it. Place j of sheet s of S sheets has item j S + s.
  cut_and_stack,
};

struct TagPlace {
  std::size_t item = 0;  // of those given
  bool box_half = false;
  int page = 0;   // from 0
  int label = 0;  // of the page, from 0, row by row
  Box box;        // the half's place; margin not taken off
};

// The places of all tags, page by page; the two halves of a pair follow each other, the bag's first.
// `is_pair`: for each item, or else it is a single tag. A pair takes the first pair of places on the sheet that
// are both free, a single tag the first free place; nothing goes back to an earlier sheet.
// Malformed: labels that the stock does not have; with cut_and_stack pairs mixed with single tags. Refused: when
// the first item fits nowhere on the part sheet, which would pass blank; cut_and_stack on a part sheet, whose
// cut stacks would have different lengths.
Result<std::vector<TagPlace>> places_of(const Stock& stock, const PartSheet& part, SheetSequence sequence,
                                        const std::vector<bool>& is_pair);

}  // namespace counterfoil
