// Inside the sheet room: what is printed outside the labels, where a stock has room: a line to lay a rule along before
// the rest of the stack is printed. A driver that shrinks pages by a few percent is the commonest reason why labels
// creep.
#pragma once

#include "base/result.h"
#include "sheet/canvas.h"
#include "sheet/lettering.h"
#include "sheet/slot.h"
#include "sheet/stock.h"

namespace counterfoil {

class ScaleNote {
 public:
  explicit ScaleNote(const Stock& stock);

  // Nothing on a stock without room. `page`: from 1 to `pages`.
  Result<void> print(int page, int pages, Canvas& canvas, Lettering& lettering) const;

 private:
  bool has_room_;
  double line_left_mm_, line_y_mm_;
  Slot words_, count_;
};

}  // namespace counterfoil
