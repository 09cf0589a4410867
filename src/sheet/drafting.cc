#include "sheet/drafting.h"

#include <algorithm>

#include "base/moment.h"
#include "sheet/measure.h"
#include "symbol/matrix.h"

namespace counterfoil {
namespace {

constexpr double kFootSideMm = 38;  // page and date
constexpr double kFootGapMm = 3;
constexpr int kMostFootLines = 8;
constexpr double kLeading = 1.5;
// Accents above capitals and descenders under the last line, in heights of capitals.
constexpr double kAboveAndBelow = 0.75;
constexpr double kLeastPageMm = 90;
constexpr double kLargestPageMm = 2000;

Slot slot_of(const std::string& name, const Box& box, const TextStyle& style) {
  Slot slot;
  slot.id = slot.name = name;
  slot.box = box;
  slot.align = style.align;
  slot.bold = style.bold;
  slot.mono = style.mono;
  slot.lines = style.lines;
  slot.leading = kLeading;
  slot.largest_mm = style.largest_mm;
  return slot;
}

// The tags' side marks, lying: the shapes without their words.
std::string mark_svg(std::string_view side) {
  const std::string head =
      R"(<svg xmlns="http://www.w3.org/2000/svg" width="36mm" height="6.6mm" viewBox="0 0 36 6.6">)";
  if (side == "suction")
    return head +
           R"(<rect x="0.25" y="0.25" width="35.5" height="6.1" rx="3.05" fill="none" stroke="#000" stroke-width="0.5"/>)"
           R"(<rect x="0.95" y="0.95" width="34.1" height="4.7" rx="2.35" fill="none" stroke="#000" stroke-width="0.25"/>)"
           R"(<path d="M2.7 2 L4.2 3.3 L2.7 4.6 M33.3 2 L31.8 3.3 L33.3 4.6" fill="none" stroke="#000" stroke-width="0.7"/></svg>)";
  if (side == "discharge")
    return head +
           R"(<rect x="0" y="0" width="36" height="6.6" fill="#000"/>)"
           R"(<path d="M2.6 2 L1.1 3.3 L2.6 4.6 M33.4 2 L34.9 3.3 L33.4 4.6" fill="none" stroke="#fff" stroke-width="0.7"/></svg>)";
  return head +
         R"(<rect x="0.15" y="0.15" width="35.7" height="6.3" fill="none" stroke="#000" stroke-width="0.3"/></svg>)";
}

double standing_width_mm(const DocumentOrder& order) {
  return order.page_width_mm - 2 * kPaperMarginMm - kFootSideMm - kFootGapMm;
}

Error named(const Error& error, const std::string& name) {
  return {error.kind, name + ": " + error.message, error.hint};
}

}  // namespace

double height_of_lines(const TextStyle& style, int lines) {
  return kLeastLetterMm * (1 + kAboveAndBelow + (lines - 1) * kLeading) +
         (lines == 1 ? style.largest_mm - kLeastLetterMm : 0);
}

Drafting::Drafting(const DocumentOrder& order, int pages, const Box& area, Canvas canvas)
    : order_(order),
      pages_(pages),
      area_(area),
      canvas_(std::move(canvas)),
      lettering_(std::make_unique<Lettering>()),
      on_ink_(std::make_unique<Lettering>()) {}

Result<Box> Drafting::area_of(const DocumentOrder& order) {
  for (const double side : {order.page_width_mm, order.page_height_mm})
    if (!(side >= kLeastPageMm && side <= kLargestPageMm))
      return malformed("a page for cards and lists is 90 to 2000 mm wide and high");
  auto lines = TextMeasure().lines("the foot", standing_width_mm(order), kStandingWords, {kLeastLetterMm},
                                   kMostFootLines);
  if (!lines) return lines.error();
  const double foot = kFootGapMm + height_of_lines({kLeastLetterMm}, std::max(2, *lines));
  return Box{kPaperMarginMm, kPaperMarginMm, order.page_width_mm - 2 * kPaperMarginMm,
             order.page_height_mm - 2 * kPaperMarginMm - foot};
}

Result<Drafting> Drafting::open(const DocumentOrder& order, const std::string& title, int pages) {
  auto area = area_of(order);
  if (!area) return area.error();
  if (!(order.dots_per_inch >= 72 && order.dots_per_inch <= 4800))
    return malformed("a printer's dots per inch are from 72 to 4800");
  if (auto created = parse_moment(order.created); !created)
    return malformed("the paper's date: " + created.error().message);
  auto canvas = Canvas::open(PageForm{order.page_width_mm, order.page_height_mm, order.dots_per_inch,
                                      order.format, order.path, title, order.created},
                             pages);
  if (!canvas) return canvas.error();
  return Drafting(order, pages, *area, std::move(*canvas));
}

Result<void> Drafting::text(const std::string& name, const Box& box, std::string_view text,
                            const TextStyle& style) {
  return place(*lettering_, name, box, text, style);
}

Result<void> Drafting::place(Lettering& lettering, const std::string& name, const Box& box,
                             std::string_view text, const TextStyle& style) {
  auto done = lettering.place(slots_.emplace_back(slot_of(name, box, style)), text, 0, 0);
  if (!done) return Error{done.error().kind, done.error().message, "shorten the text"};
  return {};
}

void Drafting::fill(const Box& box) { canvas_.fill({box}); }

void Drafting::outline(const Box& box, double width_mm) {
  canvas_.fill({{box.x_mm, box.y_mm, box.width_mm, width_mm},
                {box.x_mm, box.y_mm + box.height_mm - width_mm, box.width_mm, width_mm},
                {box.x_mm, box.y_mm, width_mm, box.height_mm},
                {box.x_mm + box.width_mm - width_mm, box.y_mm, width_mm, box.height_mm}});
}

Result<void> Drafting::side_mark(double x_mm, double y_mm, std::string_view side) {
  if (!side.empty() && side != "suction" && side != "discharge")
    return malformed("a side is suction, discharge or empty, not " + std::string(side));
  auto mark = marks_.find(side);
  if (mark == marks_.end()) {
    auto drawn = Backdrop::from_svg(mark_svg(side), kSideMarkWidthMm, kSideMarkHeightMm);
    if (!drawn) return drawn.error();
    mark = marks_.emplace(side, std::move(*drawn)).first;
  }
  mark->second.paint(canvas_.context(), x_mm, y_mm);
  const Box inside{x_mm + 4.5, y_mm + 1, kSideMarkWidthMm - 9, kSideMarkHeightMm - 2};
  TextStyle style{3, true};
  style.align = Slot::Align::middle;
  if (side == "suction") return text("the side", inside, "SUCTION", style);
  if (side == "discharge") return place(*on_ink_, "the side", inside, "DISCHARGE", style);
  return text("the side", {x_mm + 2, inside.y_mm, 12, inside.height_mm}, "SIDE", {kLeastLetterMm});
}

Result<void> Drafting::symbol(const std::string& name, const Box& box, std::string_view payload) {
  auto matrix = encode_strongest(payload, 2);
  if (!matrix) return named(matrix.error(), name);
  auto dots = dots_per_module(matrix->modules, std::min(box.width_mm, box.height_mm), order_.dots_per_inch,
                              kLeastPaperModuleMm);
  if (!dots) return named(dots.error(), name);
  const double size = matrix->modules * *dots * kMmPerInch / order_.dots_per_inch;
  canvas_.symbol(*matrix, canvas_.snapped(box.x_mm + (box.width_mm - size) / 2),
                 canvas_.snapped(box.y_mm + (box.height_mm - size) / 2), *dots);
  ++symbols_;
  return {};
}

Result<void> Drafting::begin_page() {
  ++page_;
  return canvas_.begin_page();
}

Result<void> Drafting::end_page() {
  const Box& area = area_;
  const double top = area.y_mm + area.height_mm + kFootGapMm / 2;
  fill({area.x_mm, top, area.width_mm, 0.25});
  TextStyle small{kLeastLetterMm};
  small.lines = kMostFootLines;
  const double first = top + kFootGapMm / 2;
  const double foot = order_.page_height_mm - kPaperMarginMm - first;
  auto done = text("the foot", {area.x_mm, first, standing_width_mm(order_), foot}, kStandingWords, small);
  if (!done) return done;
  small.lines = 1;
  small.align = Slot::Align::end;
  const double height = height_of_lines(small, 1);
  const double x = area.x_mm + area.width_mm - kFootSideMm;
  done = text("the page's number", {x, first, kFootSideMm, height},
              "page " + std::to_string(page_) + " of " + std::to_string(pages_), small);
  if (!done) return done;
  const auto created = parse_moment(order_.created);
  done = text("the date", {x, first + kLeading * kLeastLetterMm, kFootSideMm, height},
              "made " + date_text(*created), small);
  if (!done) return done;
  lettering_->show(canvas_.context());
  on_ink_->show(canvas_.context(), 1);
  slots_.clear();
  return canvas_.end_page();
}

Result<DocumentReport> Drafting::commit() {
  auto files = canvas_.commit();
  if (!files) return files.error();
  return DocumentReport{std::move(*files), pages_, symbols_};
}

Result<int> TextMeasure::lines(const std::string& name, double width_mm, std::string_view text,
                               TextStyle style, int most) {
  constexpr std::size_t kMostKept = 1000;
  if (!lettering_ || slots_.size() > kMostKept) {  // what is placed and never shown would heap up
    lettering_ = std::make_unique<Lettering>();
    slots_.clear();
  }
  for (style.lines = 1; style.lines <= most; ++style.lines) {
    const Slot& slot =
        slots_.emplace_back(slot_of(name, {0, 0, width_mm, height_of_lines(style, style.lines)}, style));
    auto done = lettering_->place(slot, text, 0, 0);
    if (done) return style.lines;
    if (style.lines == most) return Error{done.error().kind, done.error().message, "shorten the text"};
  }
  return most;
}

}  // namespace counterfoil
