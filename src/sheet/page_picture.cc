#include "sheet/page_picture.h"

#include "sheet/canvas.h"
#include "sheet/match_mark.h"
#include "sheet/measure.h"
#include "sheet/press.h"
#include "sheet/slot.h"
#include "sheet/symbol_place.h"

namespace counterfoil {
namespace {

Box box_of(const MatchBars& bars) {
  const double length = bars.to_mm - bars.from_mm;
  if (bars.upright) return {bars.at_mm - bars.reach_mm, bars.from_mm, 2 * bars.reach_mm, length};
  return {bars.from_mm, bars.at_mm - bars.reach_mm, length, 2 * bars.reach_mm};
}

void add_design(const SheetOrder& order, const Design& design, const TagPlace& tag,
                std::vector<PageArea>& areas) {
  const auto [x, y] = design_corner(design, order.stock.printable(tag.label, tag.box, tag.box_half));
  areas.push_back({tag, PageArea::Kind::design, {}, {x, y, design.width_mm(), design.height_mm()}});
  for (const auto& slot : design.data().slots)
    areas.push_back({tag,
                     slot.is_symbol() ? PageArea::Kind::symbol : PageArea::Kind::text,
                     slot.name,
                     {x + slot.box.x_mm, y + slot.box.y_mm, slot.box.width_mm, slot.box.height_mm}});
}

void add_tag(const SheetOrder& order, const SheetItem& item, const TagPlace& tag, const Box& bag,
             std::vector<PageArea>& areas) {
  add_design(order, tag_at(order, item, tag.box_half).design, tag, areas);
  const auto* const pair = std::get_if<PairItem>(&item);
  if (pair == nullptr) return;
  if (const auto bars = bars_of(order.stock, pair->match_mark, tag.box_half, bag, tag.box))
    areas.push_back({tag, PageArea::Kind::match_bars, {}, box_of(*bars)});
}

}  // namespace

Result<PagePicture> picture_of_page(const SheetOrder& order, const std::vector<SheetItem>& items, int page,
                                    double pixels_per_mm) {
  auto places = places_of(order, items);
  if (!places) return places.error();
  const int pages = places->back().page + 1;
  auto canvas = Canvas::open({order.stock.page_width_mm,
                              order.stock.page_height_mm,
                              pixels_per_mm * kMmPerInch,
                              SheetFormat::png,
                              {},
                              order.title,
                              order.created,
                              {}},
                             pages);
  if (!canvas) return canvas.error();
  if (auto done = canvas->begin_page(); !done) return done.error();
  std::erase_if(*places, [&](const TagPlace& place) { return place.page != page; });
  Press press(order, items, *places, *canvas, Press::Shows::paper);
  if (auto done = press.print_scale(page + 1, pages); !done) return done.error();
  PagePicture picture{{}, pixels_per_mm, {}};
  Box bag;
  for (const auto& place : *places) {
    if (auto done = press.print(items[place.item], place); !done) return done.error();
    add_tag(order, items[place.item], place, bag, picture.areas);
    if (!place.box_half) bag = place.box;
  }
  press.finish_page();
  picture.grey = canvas->grey();
  return picture;
}

}  // namespace counterfoil
