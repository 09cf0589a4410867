#include "sheet/sheet.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/moment.h"
#include "base/text.h"
#include "sheet/backdrop.h"
#include "sheet/canvas.h"
#include "sheet/fit.h"
#include "sheet/lettering.h"
#include "sheet/match_mark.h"
#include "sheet/outline.h"
#include "sheet/scale_note.h"
#include "sheet/slot.h"
#include "sheet/symbol_place.h"
#include "sheet/symbols_ahead.h"

namespace counterfoil {
namespace {

constexpr double kCutLineMm = 0.2;
const std::vector<double> kCutDashesMm = {2, 1.5};
constexpr double kSlackMm = 1e-6;

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

class Press {
 public:
  // All have to outlive this object.
  Press(const SheetOrder& order, const std::vector<SheetItem>& items, const std::vector<TagPlace>& places,
        Canvas& canvas)
      : order_(order), canvas_(canvas), symbols_ahead_(order, items, places) {}

  Result<void> print_scale(int page, int pages) {
    if (page == 1 && order_.part.start_at > 1) return {};  // it stands there already
    return scale_note_.print(page, pages, canvas_, lettering_);
  }

  Result<void> end_page() {
    for (const auto& cut : cuts_)
      canvas_.dash(line_along(cut, cut.from_mm, cut.to_mm, kCutLineMm), kCutDashesMm);
    cuts_.clear();
    lettering_.show(canvas_.context());
    return canvas_.end_page();
  }

  // One half of a pair, or a single tag.
  Result<void> print(const SheetItem& item, const TagPlace& place) {
    const Stock& stock = order_.stock;
    const auto& [design, tag] = tag_at(order_, item, place.box_half);
    if (auto done = print_tag(design, tag, place); !done) return done;
    const auto* const pair = std::get_if<PairItem>(&item);
    if (pair == nullptr) {
      if (stock.pairing == Stock::Pairing::split)
        add_cut(cut_between(stock.bag_half(place.label), stock.box_half(place.label)));
      return {};
    }
    const auto edge = stock.mark_edge(place.box_half);
    if (edge == Stock::facing_edge(stock.pairing, place.box_half) && stock.pairs_per_page() > 0) {
      // Drawn with the box half, across the cut.
      if (place.box_half) print_cut(pair->match_mark, cut_between(bag_, place.box));
      bag_ = place.box;
    } else if (edge) {
      const bool turned = place.box_half && stock.mark_edge(false) == edge;
      print_bars(bars_inside(pair->match_mark, place.box, *edge, stock.mark_ends_mm(*edge), turned));
    }
    return {};
  }

  // Of a page that is looked at; `place`: its first.
  void outline(const TagPlace& place) {
    draw_outline(canvas_, order_.stock, place.box_half);
    if (place.page == 0) draw_used(canvas_, order_.stock, order_.part);
  }

  int tags() const { return tags_; }
  int on_dead_columns() const { return on_dead_columns_; }
  int out_of_reach() const { return out_of_reach_; }
  const std::vector<SymbolReport>& symbols() const { return symbols_; }

 private:
  static Canvas::Line line_along(const CutLine& cut, double from_mm, double to_mm, double width_mm) {
    if (cut.upright) return {cut.at_mm, from_mm, cut.at_mm, to_mm, width_mm};
    return {from_mm, cut.at_mm, to_mm, cut.at_mm, width_mm};
  }

  void print_bars(const MatchBars& bars) {
    const CutLine along{bars.upright, bars.at_mm, bars.from_mm, bars.to_mm, 0};
    canvas_.dash(line_along(along, bars.from_mm, bars.to_mm, 2 * bars.reach_mm), bars.lengths_mm);
  }

  void print_cut(std::uint32_t mark, const CutLine& cut) {
    print_bars(bars_across(mark, cut));
    add_cut(cut);
  }

  // Cut lines that go on from label to label are one line.
  void add_cut(const CutLine& cut) {
    for (auto& line : cuts_)
      if (line.upright == cut.upright && line.at_mm == cut.at_mm && line.to_mm >= cut.from_mm - kSlackMm) {
        line.to_mm = std::max(line.to_mm, cut.to_mm);
        return;
      }
    cuts_.push_back(cut);
  }

  Result<void> print_tag(const Design& design, const TagContent& tag, const TagPlace& place) {
    auto done = fill_tag(design, tag, place);
    if (!done) {
      const auto number = tag.texts.find("number");
      if (number != tag.texts.end())
        return Error{done.error().kind, done.error().message + " on the tag " + number->second,
                     done.error().hint};
      return done;
    }
    ++tags_;
    return {};
  }

  Result<void> fill_tag(const Design& design, const TagContent& tag, const TagPlace& place) {
    const Box area = order_.stock.printable(place.label, place.box, place.box_half);
    if (auto done = check_room(design, area, order_.stock); !done) return done;
    const std::string_view side = tag.side.empty() ? "none" : std::string_view(tag.side);
    const auto found = std::find(kSides.begin(), kSides.end(), side);
    if (found == kSides.end())
      return malformed("a tag's side is suction, discharge or empty, not " + tag.side);
    for (const auto& [name, text] : tag.texts)
      if (auto done = check_text(design, name, text); !done) return done;
    const auto [x, y] = design_corner(design, area);
    if (auto done = check_reach({x, y, design.width_mm(), design.height_mm()}); !done) return done;
    const auto side_index = static_cast<std::size_t>(found - kSides.begin());
    backdrops_.paint(canvas_.context(), design.data().backdrops[side_index], x, y);
    for (const auto& slot : design.data().slots) {
      auto done = slot.is_symbol() ? print_symbol(design, slot, x, y) : print_text(slot, tag, x, y);
      if (!done)
        return Error{done.error().kind, "design " + design.name() + ": " + done.error().message,
                     done.error().hint};
    }
    return {};
  }

  // A printer that shrinks pages is corrected by a page that is larger than it takes.
  Result<void> check_reach(const Box& tag) {
    const auto within = [](PicturePoint p, const Box& box) {
      return p.x >= box.x_mm - kSlackMm && p.y >= box.y_mm - kSlackMm &&
             p.x <= box.x_mm + box.width_mm + kSlackMm && p.y <= box.y_mm + box.height_mm + kSlackMm;
    };
    const Box page{0, 0, order_.stock.page_width_mm, order_.stock.page_height_mm};
    bool reached = true;
    for (const double x : {tag.x_mm, tag.x_mm + tag.width_mm})
      for (const double y : {tag.y_mm, tag.y_mm + tag.height_mm}) {
        if (!within(order_.correction({x, y}), page))
          return refused("what the printer's profile corrects would reach beyond the page",
                         "set the printer to actual size (100 %), then calibrate it again");
        reached = reached && (!order_.reached || within({x, y}, *order_.reached));
      }
    if (!reached) ++out_of_reach_;
    return {};
  }

  // Slots that show some words only have to show all of them between them.
  static Result<void> check_text(const Design& design, const std::string& name, const std::string& text) {
    if (!is_text_slot_name(name)) return malformed("there is no slot \"" + name + "\" for a text");
    const auto words = static_cast<int>(split(text, ' ').size());
    int shown = 0;
    bool has_slot = false;
    for (const auto& slot : design.data().slots) {
      if (slot.name != name) continue;
      has_slot = true;
      shown = std::max(shown, slot.last_word == 0 ? words : slot.last_word);
    }
    if (has_slot && shown < words)
      return malformed("design " + design.name() + " has no slot for the last words of " + name + " \"" +
                       text + "\"");
    return {};
  }

  Result<void> print_text(const Slot& slot, const TagContent& tag, double x, double y) {
    const auto text = tag.texts.find(slot.name);
    if (text == tag.texts.end()) return {};
    return lettering_.place(slot, text->second, x, y);
  }

  Result<void> print_symbol(const Design& design, const Slot& slot, double x, double y) {
    auto fitted = symbols_ahead_.next();
    if (!fitted) return fitted.error();
    const int modules = fitted->matrix.modules;
    Canvas::Spot spot = canvas_.spot(modules, x + slot.box.x_mm + slot.box.width_mm / 2,
                                     y + slot.box.y_mm + slot.box.height_mm / 2, fitted->dots);
    const double spare_modules =
        slot.box.width_mm / fitted->longest_module_mm - modules - 2 * kQuietZoneModules;
    const auto column =
        clear_column(spot.column, modules * fitted->dots, static_cast<int>(spare_modules * fitted->dots / 2));
    if (!column) ++on_dead_columns_;
    spot.column = column.value_or(spot.column);
    canvas_.symbol(fitted->matrix, spot, fitted->dots);
    report(design, slot, *fitted);
    return {};
  }

  void report(const Design& design, const Slot& slot, const FittedSymbol& symbol) {
    for (auto& known : symbols_)
      if (known.design == design.name() && known.slot == slot.id && known.modules == symbol.matrix.modules &&
          known.level == symbol.matrix.level && known.dots == symbol.dots) {
        ++known.tags;
        return;
      }
    symbols_.push_back({design.name(), slot.id, symbol.matrix.modules, symbol.matrix.version,
                        symbol.matrix.level, symbol.dots, symbol.module_mm,
                        std::min(slot.box.width_mm, slot.box.height_mm), 1});
  }

  // The nearest first column for a symbol so wide, at most `spare` dots aside, so that no dead column runs through it.
  std::optional<int> clear_column(int first, int width, int spare) const {
    const auto clear = [&](int column) {
      const auto& dead = order_.dead_columns;
      const auto next = std::lower_bound(dead.begin(), dead.end(), column);
      return next == dead.end() || *next >= column + width;
    };
    for (int aside = 0; aside <= std::max(spare, 0); ++aside)
      for (const int column : {first - aside, first + aside})
        if (clear(column)) return column;
    return std::nullopt;
  }

  const SheetOrder& order_;
  Canvas& canvas_;
  SymbolsAhead symbols_ahead_;
  Backdrops backdrops_;
  Lettering lettering_;
  const ScaleNote scale_note_{order_.stock};
  std::vector<CutLine> cuts_;  // of the page
  Box bag_;                    // of the pair that is being printed
  int tags_ = 0;
  int on_dead_columns_ = 0, out_of_reach_ = 0;
  std::vector<SymbolReport> symbols_;
};

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
  Press press(order, items, places, *canvas);
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
  Press press(order, items, *places, *canvas);
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
