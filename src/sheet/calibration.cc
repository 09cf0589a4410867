#include "sheet/calibration.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "base/moment.h"
#include "base/text.h"
#include "sheet/calibration_parts.h"
#include "sheet/canvas.h"
#include "sheet/lettering.h"
#include "sheet/measure.h"
#include "sheet/slot.h"
#include "symbol/matrix.h"

namespace counterfoil {
namespace {

constexpr std::string_view kPlainHead = "CF.CAL1/";
constexpr std::string_view kCorrectedHead = "CF.CHK1/";
constexpr std::uint64_t kLargest = 1'000'000;  // hundredths, of mm and of dots per inch
constexpr int kMostSymbols = 4;
constexpr double kLineMm = 0.15;

// Draws the parts of a plan.
class Drawing {
 public:
  Drawing(const CalibrationPlan& plan, Canvas& canvas)
      : plan_(plan), canvas_(canvas), dot_(kMmPerInch / plan.dots_per_inch) {}

  Result<void> rulers() {
    std::vector<Box> lines = {{plan_.edge_mm, plan_.edge_mm - kLineMm / 2, plan_.across_mm, kLineMm},
                              {plan_.edge_mm - kLineMm / 2, plan_.edge_mm, kLineMm, plan_.down_mm}};
    const auto first = static_cast<int>(plan_.edge_mm);
    const bool figures = std::min(plan_.width_mm, plan_.height_mm) >= 70;
    for (const bool across : {true, false}) {
      const int last = first + static_cast<int>(across ? plan_.across_mm : plan_.down_mm);
      for (int mm = first; mm <= last; ++mm) {
        const double length = mm % 10 == 0 || mm == first || mm == last ? kTickMm : mm % 5 == 0 ? 2 : 1.2;
        if (across)
          lines.push_back({mm - kLineMm / 2, plan_.edge_mm, kLineMm, length});
        else
          lines.push_back({plan_.edge_mm, mm - kLineMm / 2, length, kLineMm});
        if (!figures || mm % 10 != 0) continue;
        // In the corner the ruler across has the figures, beside the other one's ticks.
        if (mm < plan_.edge_mm + kTickMm + (across ? 0.8 : 2) * kFigureMm) continue;
        const Box box =
            across ? Box{mm - kFigureMm, plan_.edge_mm + kTickMm, 2 * kFigureMm, kFigureMm}
                   : Box{plan_.edge_mm + kTickMm + 0.5, mm - kFigureMm / 2, 2 * kFigureMm, kFigureMm};
        if (auto done = word(std::to_string(mm), box, across ? Slot::Align::middle : Slot::Align::start);
            !done)
          return done;
      }
    }
    canvas_.fill(lines);
    return {};
  }

  // Lines of n dots with as much between, upright and level, with n beside them.
  Result<void> ramps() {
    const Box& box = plan_.ramps;
    if (box.width_mm == 0) return {};
    std::vector<Box> lines;
    constexpr double kBlockMm = 6;
    for (int n = 1; n <= 4; ++n) {
      const double step = 2 * n * dot_;
      const double left = on_dot(box.x_mm + (n - 1) * (kBlockMm + 2.5));
      if (auto done = word(std::to_string(n), {left, box.y_mm, kBlockMm, kFigureMm}, Slot::Align::middle);
          !done)
        return done;
      const double top = on_dot(box.y_mm + kFigureMm + 0.5);
      for (double at = 0; at + n * dot_ <= kBlockMm; at += step) {
        lines.push_back({left + at, top, n * dot_, on_dot(kBlockMm)});
        lines.push_back({left, on_dot(top + kBlockMm + 1.5) + at, on_dot(kBlockMm), n * dot_});
      }
    }
    canvas_.fill(lines);
    return {};
  }

  // Each dot column in turn, one step of ten lower: a dead one is a gap in a flight of stairs.
  void staircase() {
    const Box& box = plan_.staircase;
    std::vector<Box> lines;
    const auto columns = static_cast<int>(box.width_mm / dot_);
    for (int column = 0; column < columns; ++column)
      lines.push_back({box.x_mm + column * dot_, box.y_mm + column % kSteps, dot_, 0.8});
    canvas_.fill(lines);
  }

  Result<void> words(bool corrected) {
    const Box& box = plan_.words;
    if (box.width_mm == 0) return {};
    char what[200];
    if (box.width_mm < kWordsWidthMm) {
      const int lines = static_cast<int>(box.height_mm / kLineOfWordsMm + 0.25);
      std::snprintf(what, sizeof what,
                    lines == 1          ? "Actual size"
                    : box.width_mm < 30 ? "Print at actual size, %g dpi"
                                        : "Print at actual size, %g dots per inch",
                    plan_.dots_per_inch);
      return word(what, box, Slot::Align::start, lines);
    }
    std::snprintf(what, sizeof what,
                  "Calibration sheet, %g x %g mm, %g dots per inch%s. Print at actual size, ", plan_.width_mm,
                  plan_.height_mm, plan_.dots_per_inch, corrected ? ", corrected" : "");
    const std::string text =
        what +
        std::string(
            "never \"fit to page\". Scan all of it, straight on the glass, with something dark behind it. ") +
        "Or measure: paper's left edge to upright line, upper edge to level line, length of both lines.";
    return word(text, box, Slot::Align::middle, kWordsLines);
  }

  Result<void> symbols(CalibrationCode code) {
    for (const auto& symbol : plan_.symbols) {
      auto matrix = matrix_of(code);
      if (!matrix) return matrix.error();
      canvas_.symbol(
          *matrix,
          canvas_.spot(symbol.modules, symbol.middle_x_mm, symbol.middle_y_mm, symbol.dots_per_module),
          symbol.dots_per_module);
      ++code.symbol;
    }
    return {};
  }

  void show() {
    // Slots live as long as what was placed in them.
    lettering_.show(canvas_.context());
    slots_.clear();
  }

 private:
  double on_dot(double mm) const { return std::round(mm / dot_) * dot_; }

  Result<void> word(const std::string& text, const Box& box, Slot::Align align, int lines = 1) {
    auto slot = std::make_unique<Slot>();
    slot->id = slot->name = "note";
    slot->box = box;
    slot->align = align;
    slot->largest_mm = kLeastLetterMm;
    slot->lines = lines;
    slots_.push_back(std::move(slot));
    return lettering_.place(*slots_.back(), text, 0, 0);
  }

  const CalibrationPlan& plan_;
  Canvas& canvas_;
  double dot_;
  Lettering lettering_;
  std::vector<std::unique_ptr<Slot>> slots_;
};

}  // namespace

std::string write_calibration_code(const CalibrationCode& code) {
  const auto figure = [](double value) { return std::to_string(std::llround(value * kHundredth)); };
  return std::string(code.corrected ? kCorrectedHead : kPlainHead) + figure(code.width_mm) + "X" +
         figure(code.height_mm) + "/" + figure(code.dots_per_inch) + "/" + std::to_string(code.symbol);
}

Result<CalibrationCode> parse_calibration_code(std::string_view text) {
  const bool corrected = text.starts_with(kCorrectedHead);
  if (!corrected && !text.starts_with(kPlainHead)) return refused("the symbol is not a calibration sheet's");
  const auto parts = split(text.substr(kPlainHead.size()), '/');
  const Error wrong = malformed("the calibration sheet's symbol does not hold");
  if (parts.size() != 3) return wrong;
  const auto sides = split(parts[0], 'X');
  if (sides.size() != 2) return wrong;
  const auto width = to_unsigned(sides[0]), height = to_unsigned(sides[1]);
  const auto dots = to_unsigned(parts[1]), symbol = to_unsigned(parts[2]);
  if (!width || !height || !dots || !symbol || *width > kLargest || *height > kLargest || *dots > kLargest ||
      *dots < 7200 || *width == 0 || *height == 0 || *symbol < 1 || *symbol > kMostSymbols)
    return wrong;
  const auto value = [](std::uint64_t figure) { return static_cast<double>(figure) / kHundredth; };
  return CalibrationCode{value(*width), value(*height), value(*dots), static_cast<int>(*symbol), corrected};
}

Result<DocumentReport> draw_calibration(const DocumentOrder& order, const Affine& correction) {
  if (auto created = parse_moment(order.created); !created)
    return malformed("the sheet's date: " + created.error().message);
  auto plan = plan_calibration(order.page_width_mm, order.page_height_mm, order.dots_per_inch);
  if (!plan) return plan.error();
  const bool corrected = correction != Affine{};
  auto canvas = Canvas::open({order.page_width_mm, order.page_height_mm, order.dots_per_inch, order.format,
                              order.path, "Calibration sheet", order.created, correction},
                             1);
  if (!canvas) return canvas.error();
  if (auto done = canvas->begin_page(); !done) return done.error();
  Drawing drawing(*plan, *canvas);
  if (auto done = drawing.rulers(); !done) return done.error();
  if (auto done = drawing.ramps(); !done) return done.error();
  if (auto done = drawing.words(corrected); !done) return done.error();
  if (auto done = drawing.symbols({plan->width_mm, plan->height_mm, plan->dots_per_inch, 1, corrected});
      !done)
    return done.error();
  drawing.staircase();
  canvas->fill({plan->bar});
  canvas->fill_discs(plan->discs, plan->disc_mm);
  drawing.show();
  if (auto done = canvas->end_page(); !done) return done.error();
  auto files = canvas->commit();
  if (!files) return files.error();
  return DocumentReport{std::move(*files), 1, static_cast<int>(plan->symbols.size())};
}

}  // namespace counterfoil
