// Inside the sheet room: texts fitted into slots, as large as the slot allows. Owner of Pango.
#pragma once

#include <memory>
#include <string_view>

#include "base/result.h"
#include "sheet/slot.h"

struct _cairo;

namespace counterfoil {

// By how much a text is larger than its slot, in letters of the slot's least height; all 0 where it fits.
struct TextOverflow {
  double wide_mm = 0, high_mm = 0;
  int lines = 0;

  bool any() const { return wide_mm > 0 || high_mm > 0 || lines > 0; }
};

class Lettering {
 public:
  Lettering();
  ~Lettering();

  // Places the text where the slot lies when its design's top left corner is at (x, y); show() draws it.
  // Nothing of it lies outside the slot. `malformed` when the text does not fit at the slot's least height,
  // or no font here has its letters. `slot` has to outlive this object.
  Result<void> place(const Slot& slot, std::string_view text, double x_mm, double y_mm);

  // Places nothing. What place() refuses for another reason overflows nothing.
  TextOverflow overflow(const Slot& slot, std::string_view text);

  // Draws what was placed since the last time: all letters of one font and size at once, which makes a page
  // many times cheaper than text by text. `context` counts in points; `brightness` is 0 for ink, 1 for paper.
  void show(_cairo* context, double brightness = 0);

 private:
  class Fitter;
  std::unique_ptr<Fitter> fitter_;
};

}  // namespace counterfoil
