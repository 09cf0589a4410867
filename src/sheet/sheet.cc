#include "sheet/sheet.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <optional>

#include "base/moment.h"
#include "base/text.h"
#include "sheet/canvas.h"
#include "sheet/lettering.h"
#include "sheet/match_mark.h"
#include "sheet/measure.h"
#include "sheet/slot.h"
#include "symbol/matrix.h"

namespace counterfoil {
namespace {

// Holds 20 characters at level H, so that most payloads get the same symbol size.
constexpr int kLeastSymbolVersion = 2;
constexpr double kCutLineMm = 0.2;
const std::vector<double> kCutDashesMm = {2, 1.5};
constexpr double kSlackMm = 1e-6;

std::string shown(double width_mm, double height_mm) {
  std::array<char, 64> text;
  std::snprintf(text.data(), text.size(), "%.4g x %.4g mm", width_mm, height_mm);
  return text.data();
}

// Tags go from half to half; a pair begins with a bag's half.
class Places {
 public:
  explicit Places(const Stock& stock) : stock_(stock), per_page_(2 * stock.pairs_per_page()) {}

  // The half that the item begins on, counted over all pages.
  int take(const SheetItem& item) {
    const bool is_pair = std::holds_alternative<PairItem>(item);
    if (is_pair && next_ % 2 != 0) ++next_;
    const int place = next_;
    next_ += is_pair ? 2 : 1;
    return place;
  }
  int page_of(int place) const { return place / per_page_; }
  Box half(int place) const {
    const int on_page = place % per_page_;
    return on_page % 2 == 0 ? stock_.bag_half(on_page / 2) : stock_.box_half(on_page / 2);
  }

 private:
  const Stock& stock_;
  int per_page_;
  int next_ = 0;
};

class Press {
 public:
  Press(const SheetOrder& order, Canvas& canvas) : order_(order), canvas_(canvas) {}

  // Outside the labels, where a stock has room: what to check before the rest of the stack is printed. A
  // driver that shrinks pages by a few percent is the commonest reason why labels creep.
  Result<void> print_scale(int page, int pages) {
    const Stock& stock = order_.stock;
    constexpr double kLeastRoomMm = 11;
    constexpr double kLineMm = 100;
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

  Result<void> print(const SheetItem& item, const Places& places, int place) {
    const int first = place - place % 2;
    const Box bag = places.half(first);
    const Box box = places.half(first + 1);
    if (const auto* single = std::get_if<SingleItem>(&item)) {
      if (order_.stock.pairing == Stock::Pairing::split) add_cut(cut_between(bag, box));
      return print_tag(single->design, single->tag, places.half(place));
    }
    const auto& pair = std::get<PairItem>(item);
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
  int on_dead_columns() const { return on_dead_columns_; }
  int out_of_reach() const { return out_of_reach_; }

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
    const double x = half.x_mm + (half.width_mm - design.width_mm()) / 2;
    const double y = half.y_mm + (half.height_mm - design.height_mm()) / 2;
    if (auto done = check_reach({x, y, design.width_mm(), design.height_mm()}); !done) return done;
    design.data().backdrops[static_cast<std::size_t>(found - kSides.begin())].paint(canvas_.context(), x, y);
    for (const auto& slot : design.data().slots) {
      auto done = slot.is_symbol() ? print_symbol(slot, tag, x, y) : print_text(slot, tag, x, y);
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

  Result<void> print_symbol(const Slot& slot, const TagContent& tag, double x, double y) {
    auto matrix = encode_strongest(tag.payload, kLeastSymbolVersion);
    if (!matrix) return matrix.error();
    const double side = std::min(slot.box.width_mm, slot.box.height_mm);
    // The slot has to hold the longer side of a module, its least size goes by the shorter.
    const double stretch = most_dots_on_paper_ / dots_on_paper_;
    auto dots = dots_per_module(matrix->modules, side, dots_on_paper_, slot.least_module_mm * stretch);
    if (!dots) return dots.error();
    const double module_mm = *dots * kMmPerInch / dots_on_paper_;
    const int width = matrix->modules * *dots;
    const double spare_mm = slot.box.width_mm - (matrix->modules + 2 * kQuietZoneModules) * module_mm;
    Canvas::Spot spot = canvas_.spot(matrix->modules, x + slot.box.x_mm + slot.box.width_mm / 2,
                                     y + slot.box.y_mm + slot.box.height_mm / 2, *dots);
    const auto column = clear_column(spot.column, width, static_cast<int>(spare_mm / module_mm * *dots / 2));
    if (!column) ++on_dead_columns_;
    spot.column = column.value_or(spot.column);
    canvas_.symbol(*matrix, spot, *dots);
    if (least_module_mm_ == 0 || module_mm / stretch < least_module_mm_)
      least_module_mm_ = module_mm / stretch;
    return {};
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
  Lettering lettering_;
  // To the inch of paper, where a printer that stretches the page has fewer; the way that has fewest, and the other.
  const double across_ = order_.dots_per_inch * std::hypot(order_.correction.xx, order_.correction.yx);
  const double down_ = order_.dots_per_inch * std::hypot(order_.correction.xy, order_.correction.yy);
  const double dots_on_paper_ = std::min(across_, down_), most_dots_on_paper_ = std::max(across_, down_);
  const Slot scale_slot_ = scale_slot(order_.stock);
  std::vector<CutLine> cuts_;  // of the page
  int tags_ = 0;
  double least_module_mm_ = 0;
  int on_dead_columns_ = 0;
  int out_of_reach_ = 0;
};

}  // namespace

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

Result<SheetReport> draw_sheet(const SheetOrder& order, const std::vector<SheetItem>& items) {
  if (items.empty()) return malformed("there is nothing to print");
  if (auto done = check_order(order); !done) return done.error();
  Places counted(order.stock);
  int last = 0;
  for (const auto& item : items) last = counted.take(item) + (std::holds_alternative<PairItem>(item) ? 1 : 0);
  const int pages = counted.page_of(last) + 1;

  auto canvas = Canvas::open(order, pages);
  if (!canvas) return canvas.error();
  Press press(order, *canvas);
  Places places(order.stock);
  int page = -1;
  for (const auto& item : items) {
    const int place = places.take(item);
    if (places.page_of(place) != page) {
      if (page >= 0)
        if (auto done = press.end_page(); !done) return done.error();
      page = places.page_of(place);
      if (auto done = canvas->begin_page(); !done) return done.error();
      if (auto done = press.print_scale(page + 1, pages); !done) return done.error();
    }
    if (auto done = press.print(item, places, place); !done) return done.error();
  }
  if (auto done = press.end_page(); !done) return done.error();
  auto files = canvas->commit();
  if (!files) return files.error();
  return SheetReport{
      std::move(*files),   pages, press.tags(), press.least_module_mm(), press.on_dead_columns(),
      press.out_of_reach()};
}

}  // namespace counterfoil
