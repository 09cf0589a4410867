#include "sheet/press.h"

#include <algorithm>

#include "base/text.h"
#include "sheet/outline.h"
#include "sheet/symbol_place.h"

namespace counterfoil {
namespace {

constexpr double kCutLineMm = 0.2;
const std::vector<double> kCutDashesMm = {2, 1.5};
constexpr double kSlackMm = 1e-6;

Canvas::Line line_along(const CutLine& cut, double from_mm, double to_mm, double width_mm) {
  if (cut.upright) return {cut.at_mm, from_mm, cut.at_mm, to_mm, width_mm};
  return {from_mm, cut.at_mm, to_mm, cut.at_mm, width_mm};
}

// Slots that show some words only have to show all of them between them.
Result<void> check_text(const Design& design, const std::string& name, const std::string& text) {
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
    return malformed("design " + design.name() + " has no slot for the last words of " + name + " \"" + text +
                     "\"");
  return {};
}

}  // namespace

Result<void> Press::print_scale(int page, int pages) {
  if (page == 1 && order_.part.start_at > 1) return {};  // it stands there already
  return scale_note_.print(page, pages, canvas_, lettering_);
}

void Press::finish_page() {
  for (const auto& cut : cuts_)
    canvas_.dash(line_along(cut, cut.from_mm, cut.to_mm, kCutLineMm), kCutDashesMm);
  cuts_.clear();
  lettering_.show(canvas_.context());
}

Result<void> Press::end_page() {
  finish_page();
  return canvas_.end_page();
}

Result<void> Press::print(const SheetItem& item, const TagPlace& place) {
  const Stock& stock = order_.stock;
  const auto& [design, tag] = tag_at(order_, item, place.box_half);
  if (auto done = print_tag(design, tag, place); !done) return done;
  const auto* const pair = std::get_if<PairItem>(&item);
  if (pair == nullptr) {
    if (stock.pairing == Stock::Pairing::split)
      add_cut(cut_between(stock.bag_half(place.label), stock.box_half(place.label)));
    return {};
  }
  if (const auto bars = bars_of(stock, pair->match_mark, place.box_half, bag_, place.box)) print_bars(*bars);
  if (place.box_half && bars_cross_cut(stock, true)) add_cut(cut_between(bag_, place.box));
  if (!place.box_half) bag_ = place.box;
  return {};
}

void Press::outline(const TagPlace& place) {
  draw_outline(canvas_, order_.stock, place.box_half);
  if (place.page == 0) draw_used(canvas_, order_.stock, order_.part);
}

void Press::print_bars(const MatchBars& bars) {
  const CutLine along{bars.upright, bars.at_mm, bars.from_mm, bars.to_mm, 0};
  canvas_.dash(line_along(along, bars.from_mm, bars.to_mm, 2 * bars.reach_mm), bars.lengths_mm);
}

// Cut lines that go on from label to label are one line.
void Press::add_cut(const CutLine& cut) {
  for (auto& line : cuts_)
    if (line.upright == cut.upright && line.at_mm == cut.at_mm && line.to_mm >= cut.from_mm - kSlackMm) {
      line.to_mm = std::max(line.to_mm, cut.to_mm);
      return;
    }
  cuts_.push_back(cut);
}

Result<void> Press::print_tag(const Design& design, const TagContent& tag, const TagPlace& place) {
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

Result<void> Press::fill_tag(const Design& design, const TagContent& tag, const TagPlace& place) {
  const Box area = order_.stock.printable(place.label, place.box, place.box_half);
  if (auto done = check_room(design, area, order_.stock); !done) return done;
  const std::string_view side = tag.side.empty() ? "none" : std::string_view(tag.side);
  const auto found = std::find(kSides.begin(), kSides.end(), side);
  if (found == kSides.end()) return malformed("a tag's side is suction, discharge or empty, not " + tag.side);
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
Result<void> Press::check_reach(const Box& tag) {
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

Result<void> Press::print_text(const Slot& slot, const TagContent& tag, double x, double y) {
  const auto text = tag.texts.find(slot.name);
  if (text == tag.texts.end()) return {};
  return lettering_.place(slot, text->second, x, y);
}

Result<void> Press::print_symbol(const Design& design, const Slot& slot, double x, double y) {
  auto fitted = symbols_ahead_.next();
  if (!fitted) return fitted.error();
  const SymbolSpot spot = symbol_spot(order_, *fitted, slot, x, y);
  if (spot.on_dead_column) ++on_dead_columns_;
  if (shows_ == Shows::paper)
    canvas_.symbol(fitted->matrix, symbol_box(order_, *fitted, spot));
  else
    canvas_.symbol(fitted->matrix, {spot.column, spot.row}, fitted->dots);
  report(design, slot, *fitted);
  return {};
}

void Press::report(const Design& design, const Slot& slot, const FittedSymbol& symbol) {
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

}  // namespace counterfoil
