// Inside the sheet room: texts fitted into slots, as large as the slot allows. Owner of Pango.
#pragma once

#include <memory>
#include <string_view>

#include "base/result.h"
#include "sheet/slot.h"

struct _cairo;

namespace counterfoil {

class Lettering {
 public:
  Lettering();
  ~Lettering();

  // `slot` has to outlive this object. Draws the text with the slot's design at that place; `context` counts
  // in points. Nothing of it lies outside the slot. `malformed` when the text does not fit at the slot's
  // least height, or no font here has its letters.
  Result<void> draw(_cairo* context, const Slot& slot, std::string_view text, double x_mm, double y_mm);

 private:
  struct Piece;
  class Fitter;
  std::unique_ptr<Fitter> fitter_;
};

}  // namespace counterfoil
