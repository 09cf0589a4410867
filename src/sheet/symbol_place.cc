#include "sheet/symbol_place.h"

#include <algorithm>
#include <optional>

#include "sheet/fit.h"
#include "sheet/measure.h"
#include "sheet/slot.h"

namespace counterfoil {
namespace {

// The nearest first column for a symbol so wide, at most `spare` dots aside, so that no dead column runs through it.
std::optional<int> clear_column(const std::vector<int>& dead, int first, int width, int spare) {
  const auto clear = [&](int column) {
    const auto next = std::lower_bound(dead.begin(), dead.end(), column);
    return next == dead.end() || *next >= column + width;
  };
  for (int aside = 0; aside <= std::max(spare, 0); ++aside)
    for (const int column : {first - aside, first + aside})
      if (clear(column)) return column;
  return std::nullopt;
}

}  // namespace

std::pair<double, double> design_corner(const Design& design, const Box& printable) {
  return {printable.x_mm + (printable.width_mm - design.width_mm()) / 2,
          printable.y_mm + (printable.height_mm - design.height_mm()) / 2};
}

SymbolSpot symbol_spot(const SheetOrder& order, const FittedSymbol& symbol, const Slot& slot, double x_mm,
                       double y_mm) {
  const PicturePoint middle = order.correction(
      {x_mm + slot.box.x_mm + slot.box.width_mm / 2, y_mm + slot.box.y_mm + slot.box.height_mm / 2});
  const int dots = symbol.matrix.modules * symbol.dots;
  const int column = first_dot(middle.x, dots, order.dots_per_inch);
  const double spare_modules =
      slot.box.width_mm / symbol.longest_module_mm - symbol.matrix.modules - 2 * kQuietZoneModules;
  const auto clear =
      clear_column(order.dead_columns, column, dots, static_cast<int>(spare_modules * symbol.dots / 2));
  return {clear.value_or(column), first_dot(middle.y, dots, order.dots_per_inch), !clear};
}

Box symbol_box(const SheetOrder& order, const FittedSymbol& symbol, const SymbolSpot& spot) {
  const double dot_mm = kMmPerInch / order.dots_per_inch;
  const double half = symbol.matrix.modules * symbol.dots / 2.0;
  const PicturePoint middle =
      order.correction.inverse()({(spot.column + half) * dot_mm, (spot.row + half) * dot_mm});
  const double size = symbol.width_mm();
  return {middle.x - size / 2, middle.y - size / 2, size, size};
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
      const Box box = symbol_box(order, *fitted, symbol_spot(order, *fitted, slot, x, y));
      symbols.push_back({tag, content.payload, std::move(fitted->matrix), box});
    }
  }
  return symbols;
}

}  // namespace counterfoil
