#include "sheet/fit.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "sheet/measure.h"
#include "symbol/choice.h"

namespace counterfoil {
namespace {

constexpr double kSlackMm = 1e-6;

std::string shown(double width_mm, double height_mm) {
  return decimal(width_mm, 4) + " x " + decimal(height_mm, 4) + " mm";
}

Result<void> check_tag(const SheetOrder& order, const SheetItem& item, bool box_half) {
  const Stock& stock = order.stock;
  const auto& [design, tag] = tag_at(order, item, box_half);
  const Box area = box_half ? stock.printable(stock.box_label(0), stock.box_half(0), true)
                            : stock.printable(stock.bag_label(0), stock.bag_half(0), false);
  if (auto done = check_room(design, area, stock); !done) return done;
  for (const auto& slot : design.data().slots)
    if (slot.is_symbol())
      if (auto fitted = fit_symbol(slot, tag.payload, dots_on_paper(order)); !fitted) return fitted.error();
  return {};
}

}  // namespace

Result<void> check_room(const Design& design, const Box& printable, const Stock& stock) {
  if (design.width_mm() <= printable.width_mm + kSlackMm &&
      design.height_mm() <= printable.height_mm + kSlackMm)
    return {};
  return refused("design " + design.name() + " of " + shown(design.width_mm(), design.height_mm()) +
                     " is larger than the place for it on stock " + stock.name + ", " +
                     shown(printable.width_mm, printable.height_mm),
                 "take a larger stock or a smaller design");
}

DotsOnPaper dots_on_paper(const SheetOrder& order) {
  const double across = order.dots_per_inch * std::hypot(order.correction.xx, order.correction.yx);
  const double down = order.dots_per_inch * std::hypot(order.correction.xy, order.correction.yy);
  return {std::min(across, down), std::max(across, down)};
}

Result<FittedSymbol> fit_symbol(const Slot& slot, std::string_view payload, const DotsOnPaper& on_paper) {
  const double side = std::min(slot.box.width_mm, slot.box.height_mm);
  // The slot has to hold the longer side of a module; its least size goes by the shorter.
  auto chosen =
      choose_symbol(payload, side, on_paper.fewest, slot.least_module_mm * on_paper.most / on_paper.fewest);
  if (!chosen) return chosen.error();
  return FittedSymbol{std::move(chosen->matrix), chosen->dots, chosen->dots * kMmPerInch / on_paper.most,
                      chosen->dots * kMmPerInch / on_paper.fewest};
}

Result<void> check_fit(const SheetOrder& order, const std::vector<SheetItem>& items) {
  for (const auto& item : items) {
    if (auto done = check_tag(order, item, false); !done) return done;
    if (std::holds_alternative<SingleItem>(item)) continue;
    if (auto done = check_tag(order, item, true); !done) return done;
  }
  return {};
}

}  // namespace counterfoil
