#include "sheet/sheet.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/moment.h"
#include "sheet/canvas.h"
#include "sheet/press.h"

namespace counterfoil {
namespace {

Result<void> check_order(const SheetOrder& order) {
  if (!(order.dots_per_inch >= 72 && order.dots_per_inch <= 4800))
    return malformed("a printer's dots per inch are from 72 to 4800");
  if (auto created = parse_moment(order.created); !created)
    return malformed("the sheet's date: " + created.error().message);
  // What takes the page to a line would make letters and symbols of no size.
  if (!(std::abs(order.correction.determinant()) > 0.1))
    return malformed("the printer's correction leaves nothing of the page");
  return {};
}

PageForm form_of(const SheetOrder& order, SheetFormat format, const std::string& path) {
  return {order.stock.page_width_mm,
          order.stock.page_height_mm,
          order.dots_per_inch,
          format,
          path,
          order.title,
          order.created,
          format == SheetFormat::preview ? Affine{} : order.correction};
}

// The first `pages` pages.
Result<void> draw_pages(const std::vector<SheetItem>& items, const std::vector<TagPlace>& places, int pages,
                        bool outlined, Press& press, Canvas& canvas) {
  const int all_pages = places.back().page + 1;
  int page = -1;
  for (const auto& place : places) {
    if (place.page >= pages) break;
    if (place.page != page) {
      if (page >= 0)
        if (auto done = press.end_page(); !done) return done;
      page = place.page;
      if (auto done = canvas.begin_page(); !done) return done;
      if (outlined) press.outline(place);
      if (auto done = press.print_scale(page + 1, all_pages); !done) return done;
    }
    if (auto done = press.print(items[place.item], place); !done) return done;
  }
  return press.end_page();
}

Result<std::vector<std::string>> draw_preview(const SheetOrder& order, const std::vector<SheetItem>& items,
                                              const std::vector<TagPlace>& places) {
  const int pages = std::min(places.back().page + 1, kMostPreviews);
  auto canvas = Canvas::open(form_of(order, SheetFormat::preview, order.preview), pages);
  if (!canvas) return canvas.error();
  Press press(order, items, places, *canvas, Press::Shows::paper);
  if (auto done = draw_pages(items, places, pages, true, press, *canvas); !done) return done.error();
  return canvas->commit();
}

}  // namespace

Result<std::vector<TagPlace>> places_of(const SheetOrder& order, const std::vector<SheetItem>& items) {
  std::vector<bool> is_pair;
  for (const auto& item : items) is_pair.push_back(std::holds_alternative<PairItem>(item));
  return places_of(order.stock, order.part, order.sequence, is_pair);
}

Result<SheetReport> draw_sheet(const SheetOrder& order, const std::vector<SheetItem>& items) {
  if (items.empty()) return malformed("there is nothing to print");
  if (auto done = check_order(order); !done) return done.error();
  auto places = places_of(order, items);
  if (!places) return places.error();
  const int pages = places->back().page + 1;

  auto canvas = Canvas::open(form_of(order, order.format, order.path), pages);
  if (!canvas) return canvas.error();
  Press press(order, items, *places, *canvas, Press::Shows::page_sent);
  if (auto done = draw_pages(items, *places, pages, false, press, *canvas); !done) return done.error();
  SheetReport report;
  report.pages = pages;
  report.tags = press.tags();
  report.symbols = press.symbols();
  report.on_dead_columns = press.on_dead_columns();
  report.out_of_reach = press.out_of_reach();
  for (const auto& symbol : report.symbols)
    if (report.least_module_mm == 0 || symbol.module_mm < report.least_module_mm)
      report.least_module_mm = symbol.module_mm;
  if (!order.preview.empty()) {
    auto previews = draw_preview(order, items, *places);
    if (!previews) return previews.error();
    report.previews = std::move(*previews);
  }
  auto files = canvas->commit();
  if (!files) return files.error();
  report.files = std::move(*files);
  report.first_label = places->front().label + 1;
  for (const auto& place : *places) {
    if (place.page == 0) report.first_label = std::min(report.first_label, place.label + 1);
    if (place.page == pages - 1) report.last_labels.push_back(place.label + 1);
  }
  std::sort(report.last_labels.begin(), report.last_labels.end());
  report.last_labels.erase(std::unique(report.last_labels.begin(), report.last_labels.end()),
                           report.last_labels.end());
  return report;
}

}  // namespace counterfoil
