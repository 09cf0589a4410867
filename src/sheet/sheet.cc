#include "sheet/sheet.h"

#include <algorithm>
#include <array>
#include <cstdio>

#include "base/moment.h"
#include "base/text.h"
#include "sheet/canvas.h"
#include "sheet/lettering.h"
#include "sheet/match_mark.h"
#include "sheet/measure.h"
#include "sheet/slot.h"
#include "sheet/symbol_place.h"

namespace counterfoil {
namespace {

constexpr double kCutLineMm = 0.2;
const std::vector<double> kCutDashesMm = {2, 1.5};
constexpr double kSlackMm = 1e-6;

std::string shown(double width_mm, double height_mm) {
  std::array<char, 64> text;
  std::snprintf(text.data(), text.size(), "%.4g x %.4g mm", width_mm, height_mm);
  return text.data();
}

Result<void> check_order(const SheetOrder& order) {
  if (!(order.dots_per_inch >= 72 && order.dots_per_inch <= 4800))
    return malformed("a printer's dots per inch are from 72 to 4800");
  if (auto created = parse_moment(order.created); !created)
    return malformed("the sheet's date: " + created.error().message);
  return {};
}

class Press {
 public:
  Press(const SheetOrder& order, Canvas& canvas) : order_(order), canvas_(canvas) {}

  // Outside the labels, where a stock has room: what to check before the rest of the stack is printed. A
  // driver that shrinks pages by a few percent is the commonest reason why labels creep.
  Result<void> print_scale(int page, int pages) {
    const Stock& stock = order_.stock;
    constexpr double kLeastRoomMm = 11;
    constexpr double kLineMm = 100;
    if (page == 1 && order_.part.start_at > 1) return {};  // it stands there already
    if (stock.top_mm < kLeastRoomMm || stock.page_width_mm < kLineMm + 20) return {};
    const double left = (stock.page_width_mm - kLineMm) / 2;
    const double y = stock.top_mm - 3;
    constexpr double kRuleMm = 0.2;
    canvas_.fill({{left, y - kRuleMm / 2, kLineMm, kRuleMm},
                  {left - kRuleMm / 2, y - 1, kRuleMm, 2},
                  {left + kLineMm - kRuleMm / 2, y - 1, kRuleMm, 2}});
    return lettering_.place(scale_slot_,
                            "Print at actual size: this line is 100 mm. Sheet " + std::to_string(page) +
                                " of " + std::to_string(pages),
                            0, y - 5.5);
  }

  Result<void> end_page() {
    for (const auto& cut : cuts_)
      canvas_.dash(line_along(cut, cut.from_mm, cut.to_mm, kCutLineMm), kCutDashesMm);
    cuts_.clear();
    lettering_.show(canvas_.context());
    return canvas_.end_page();
  }

  // `place`: the item's first; the second half of a pair lies at the one behind it.
  Result<void> print(const SheetItem& item, const TagPlace* place) {
    if (const auto* single = std::get_if<SingleItem>(&item)) {
      if (order_.stock.pairing == Stock::Pairing::split)
        add_cut(cut_between(order_.stock.bag_half(place->label), order_.stock.box_half(place->label)));
      return print_tag(single->design, single->tag, place->box);
    }
    const auto& pair = std::get<PairItem>(item);
    const Box& bag = place[0].box;
    const Box& box = place[1].box;
    if (auto done = print_tag(order_.bag, pair.bag, bag); !done) return done;
    if (auto done = print_tag(order_.box, pair.box, box); !done) return done;
    const CutLine cut = cut_between(bag, box);
    const MatchBars bars = match_bars(pair.match_mark, cut);
    canvas_.dash(line_along(cut, bars.from_mm, bars.to_mm, 2 * bars.reach_mm), bars.lengths_mm);
    add_cut(cut);
    return {};
  }

  int tags() const { return tags_; }
  double least_module_mm() const { return least_module_mm_; }

 private:
  static Slot scale_slot(const Stock& stock) {
    Slot slot;
    slot.id = slot.name = "note";
    slot.box = {10, 0, stock.page_width_mm - 20, 4.5};
    slot.align = Slot::Align::middle;
    slot.largest_mm = kLeastLetterMm;
    return slot;
  }

  static Canvas::Line line_along(const CutLine& cut, double from_mm, double to_mm, double width_mm) {
    if (cut.upright) return {cut.at_mm, from_mm, cut.at_mm, to_mm, width_mm};
    return {from_mm, cut.at_mm, to_mm, cut.at_mm, width_mm};
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

  Result<void> print_tag(const Design& design, const TagContent& tag, const Box& half) {
    auto done = fill_tag(design, tag, half);
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

  Result<void> fill_tag(const Design& design, const TagContent& tag, const Box& half) {
    const double margin = order_.stock.margin_mm;
    if (design.width_mm() > half.width_mm - 2 * margin + kSlackMm ||
        design.height_mm() > half.height_mm - 2 * margin + kSlackMm)
      return refused("design " + design.name() + " of " + shown(design.width_mm(), design.height_mm()) +
                         " is larger than the place for it on stock " + order_.stock.name + ", " +
                         shown(half.width_mm - 2 * margin, half.height_mm - 2 * margin),
                     "take a larger stock or a smaller design");
    const std::string_view side = tag.side.empty() ? "none" : std::string_view(tag.side);
    const auto found = std::find(kSides.begin(), kSides.end(), side);
    if (found == kSides.end())
      return malformed("a tag's side is suction, discharge or empty, not " + tag.side);
    for (const auto& [name, text] : tag.texts)
      if (auto done = check_text(design, name, text); !done) return done;
    const Box place = design_place(design, half);
    const double x = place.x_mm, y = place.y_mm;
    design.data().backdrops[static_cast<std::size_t>(found - kSides.begin())].paint(canvas_.context(), x, y);
    for (const auto& slot : design.data().slots) {
      auto done = slot.is_symbol() ? print_symbol(slot, tag, place) : print_text(slot, tag, x, y);
      if (!done)
        return Error{done.error().kind, "design " + design.name() + ": " + done.error().message,
                     done.error().hint};
    }
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

  Result<void> print_symbol(const Slot& slot, const TagContent& tag, const Box& place) {
    auto symbol =
        symbol_place(tag.payload, moved(slot.box, place), slot.least_module_mm, order_.dots_per_inch);
    if (!symbol) return symbol.error();
    const double module_mm = symbol->box.width_mm / symbol->matrix.modules;
    canvas_.symbol(symbol->matrix, symbol->box.x_mm, symbol->box.y_mm, symbol->dots_per_module);
    if (least_module_mm_ == 0 || module_mm < least_module_mm_) least_module_mm_ = module_mm;
    return {};
  }

  const SheetOrder& order_;
  Canvas& canvas_;
  Lettering lettering_;
  const Slot scale_slot_ = scale_slot(order_.stock);
  std::vector<CutLine> cuts_;  // of the page
  int tags_ = 0;
  double least_module_mm_ = 0;
};

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

  auto canvas = Canvas::open(order, pages);
  if (!canvas) return canvas.error();
  Press press(order, *canvas);
  int page = -1;
  for (const auto& place : *places) {
    if (place.box_half) continue;  // printed with the bag's
    if (place.page != page) {
      if (page >= 0)
        if (auto done = press.end_page(); !done) return done.error();
      page = place.page;
      if (auto done = canvas->begin_page(); !done) return done.error();
      if (auto done = press.print_scale(page + 1, pages); !done) return done.error();
    }
    if (auto done = press.print(items[place.item], &place); !done) return done.error();
  }
  if (auto done = press.end_page(); !done) return done.error();
  auto files = canvas->commit();
  if (!files) return files.error();
  SheetReport report{std::move(*files), pages, press.tags(), press.least_module_mm(), 0, {}};
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
