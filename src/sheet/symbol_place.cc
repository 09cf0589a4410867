#include "sheet/symbol_place.h"

#include "sheet/fit.h"
#include "sheet/measure.h"
#include "sheet/slot.h"

namespace counterfoil {

std::pair<double, double> design_corner(const Design& design, const Box& printable) {
  return {printable.x_mm + (printable.width_mm - design.width_mm()) / 2,
          printable.y_mm + (printable.height_mm - design.height_mm()) / 2};
}

Box symbol_box(const FittedSymbol& symbol, const Slot& slot, double x_mm, double y_mm, double dots_per_inch) {
  const int dots = symbol.matrix.modules * symbol.dots;
  const double dot_mm = symbol.module_mm / symbol.dots, size = symbol.width_mm();
  const auto first = [&](double middle) { return first_dot(middle, dots, dots_per_inch) * dot_mm; };
  return {first(x_mm + slot.box.x_mm + slot.box.width_mm / 2),
          first(y_mm + slot.box.y_mm + slot.box.height_mm / 2), size, size};
}

Result<std::vector<SheetSymbol>> symbols_of(const SheetOrder& order, const std::vector<SheetItem>& items) {
  auto places = places_of(order, items);
  if (!places) return places.error();
  std::vector<SheetSymbol> symbols;
  for (const auto& tag : *places) {
    const auto& [design, content] = tag_at(order, items[tag.item], tag.box_half);
    const Box area = order.stock.printable(tag.label, tag.box, tag.box_half);
    if (auto done = check_room(design, area, order.stock); !done) return done.error();
    const auto [x, y] = design_corner(design, area);
    for (const auto& slot : design.data().slots) {
      if (!slot.is_symbol()) continue;
      auto fitted = fit_symbol(slot, content.payload, dots_on_paper(order));
      if (!fitted) return fitted.error();
      const Box box = symbol_box(*fitted, slot, x, y, order.dots_per_inch);
      symbols.push_back({tag, content.payload, std::move(fitted->matrix), box});
    }
  }
  return symbols;
}

}  // namespace counterfoil
