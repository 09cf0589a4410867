#include "sheet/scale_note.h"

#include <string>

namespace counterfoil {
namespace {

constexpr double kLineMm = 100, kRuleMm = 0.2;
constexpr double kWordsMm = 74, kGapMm = 3, kCountMm = 48, kTextMm = kWordsMm + kGapMm + kCountMm;
constexpr double kLeastTopMm = 11, kLeastMarginMm = 10;

Slot note(double left_mm, double width_mm, Slot::Align align) {
  Slot slot;
  slot.id = slot.name = "note";
  slot.box = {left_mm, 0, width_mm, 4.5};
  slot.align = align;
  slot.largest_mm = kLeastLetterMm;
  return slot;
}

}  // namespace

ScaleNote::ScaleNote(const Stock& stock)
    : has_room_(stock.top_mm >= kLeastTopMm && stock.page_width_mm >= kTextMm + 2 * kLeastMarginMm),
      line_left_mm_((stock.page_width_mm - kLineMm) / 2),
      line_y_mm_(stock.top_mm - 3) {
  const double left = (stock.page_width_mm - kTextMm) / 2;
  // The words are the same on every sheet, and are shaped once; the count is in letters that all advance alike, and put
  // together from them.
  words_ = note(left, kWordsMm, Slot::Align::end);
  count_ = note(left + kWordsMm + kGapMm, kCountMm, Slot::Align::start);
  count_.mono = true;
}

Result<void> ScaleNote::print(int page, int pages, Canvas& canvas, Lettering& lettering) const {
  if (!has_room_) return {};
  canvas.fill({{line_left_mm_, line_y_mm_ - kRuleMm / 2, kLineMm, kRuleMm},
               {line_left_mm_ - kRuleMm / 2, line_y_mm_ - 1, kRuleMm, 2},
               {line_left_mm_ + kLineMm - kRuleMm / 2, line_y_mm_ - 1, kRuleMm, 2}});
  const double y = line_y_mm_ - 5.5;
  if (auto done = lettering.place(words_, "Print at actual size: this line is 100 mm.", 0, y); !done)
    return done;
  return lettering.place(count_, "Sheet " + std::to_string(page) + " of " + std::to_string(pages), 0, y);
}

}  // namespace counterfoil
