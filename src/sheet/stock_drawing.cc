#include "sheet/stock_drawing.h"

#include <deque>

#include "sheet/canvas.h"
#include "sheet/lettering.h"
#include "sheet/outline.h"
#include "sheet/slot.h"

namespace counterfoil {
namespace {

constexpr double kDotsPerInch = 300;  // of a PNG
constexpr double kLargestCaptionMm = 5;

// Number of the label and half; left out where it does not fit.
Result<void> write_captions(Canvas& canvas, const std::vector<OutlinedPlace>& places) {
  std::deque<Slot> slots;  // outlives the lettering, and never moves
  Lettering lettering;
  for (const auto& place : places) {
    Slot& slot = slots.emplace_back();
    slot.id = slot.name = "note";
    slot.box = {0, 0, place.printable.width_mm, place.printable.height_mm};
    slot.align = Slot::Align::middle;
    slot.largest_mm = kLargestCaptionMm;
    const std::string half = !place.in_pair ? "single" : place.box_half ? "box" : "bag";
    auto done = lettering.place(slot, std::to_string(place.label + 1) + " " + half, place.printable.x_mm,
                                place.printable.y_mm);
    if (!done && done.error().kind != ErrorKind::malformed) return done;
  }
  lettering.show(canvas.context());
  return {};
}

}  // namespace

Result<std::vector<std::string>> draw_stock(const Stock& stock, SheetFormat format, const std::string& path,
                                            const std::string& created) {
  const int pages = stock.pairs_per_page() == 0 ? 2 : 1;
  auto canvas = Canvas::open(
      {stock.page_width_mm, stock.page_height_mm, kDotsPerInch, format, path, "Stock " + stock.name, created},
      pages);
  if (!canvas) return canvas.error();
  for (int page = 0; page < pages; ++page) {
    if (auto done = canvas->begin_page(); !done) return done.error();
    draw_outline(*canvas, stock, page == 1);
    if (auto done = write_captions(*canvas, outlined_places(stock, page == 1)); !done) return done.error();
    if (auto done = canvas->end_page(); !done) return done.error();
  }
  return canvas->commit();
}

}  // namespace counterfoil
