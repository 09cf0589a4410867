#include "sheet/symbol_place.h"

#include <algorithm>
#include <cmath>

#include "sheet/measure.h"
#include "sheet/slot.h"

namespace counterfoil {
namespace {

// Holds 20 characters at level H, so that most payloads get the same symbol size.
constexpr int kLeastSymbolVersion = 2;

}  // namespace

Result<SymbolPlace> symbol_place(std::string_view payload, const Box& slot, double least_module_mm,
                                 double dots_per_inch) {
  auto matrix = encode_strongest(payload, kLeastSymbolVersion);
  if (!matrix) return matrix.error();
  auto dots = dots_per_module(matrix->modules, std::min(slot.width_mm, slot.height_mm), dots_per_inch,
                              least_module_mm);
  if (!dots) return dots.error();
  const double dot_mm = kMmPerInch / dots_per_inch;
  const double size = matrix->modules * *dots * dot_mm;
  const auto snapped = [&](double mm) { return std::round(mm / dot_mm) * dot_mm; };
  SymbolPlace place;
  place.box = {snapped(slot.x_mm + (slot.width_mm - size) / 2),
               snapped(slot.y_mm + (slot.height_mm - size) / 2), size, size};
  place.matrix = std::move(*matrix);
  place.dots_per_module = *dots;
  return place;
}

Box moved(const Box& box, const Box& by) {
  return {box.x_mm + by.x_mm, box.y_mm + by.y_mm, box.width_mm, box.height_mm};
}

Box design_place(const Design& design, const Box& half) {
  return {half.x_mm + (half.width_mm - design.width_mm()) / 2,
          half.y_mm + (half.height_mm - design.height_mm()) / 2, design.width_mm(), design.height_mm()};
}

Result<std::vector<SheetSymbol>> symbols_of(const SheetOrder& order, const std::vector<SheetItem>& items) {
  auto places = places_of(order, items);
  if (!places) return places.error();
  std::vector<SheetSymbol> symbols;
  for (const auto& tag : *places) {
    const auto* single = std::get_if<SingleItem>(&items[tag.item]);
    const auto* pair = std::get_if<PairItem>(&items[tag.item]);
    const Design& design = single != nullptr ? single->design : tag.box_half ? order.box : order.bag;
    const TagContent& content = single != nullptr ? single->tag : tag.box_half ? pair->box : pair->bag;
    const Box at = design_place(design, tag.box);
    for (const auto& slot : design.data().slots) {
      if (!slot.is_symbol()) continue;
      auto place =
          symbol_place(content.payload, moved(slot.box, at), slot.least_module_mm, order.dots_per_inch);
      if (!place) return place.error();
      symbols.push_back({tag, content.payload, std::move(*place)});
    }
  }
  return symbols;
}

}  // namespace counterfoil
