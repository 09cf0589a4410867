#include "sheet/calibration.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "base/moment.h"
#include "base/text.h"
#include "sheet/canvas.h"
#include "sheet/lettering.h"
#include "sheet/measure.h"
#include "sheet/slot.h"
#include "symbol/matrix.h"

namespace counterfoil {
namespace {

constexpr std::string_view kPlainHead = "CF.CAL1/";
constexpr std::string_view kCorrectedHead = "CF.CHK1/";
constexpr double kHundredth = 100;
constexpr std::uint64_t kLargest = 1'000'000;  // hundredths, of mm and of dots per inch
constexpr int kMostSymbols = 4;

constexpr double kTickMm = 3, kFigureMm = 4.5;  // longest tick; a figure's place is so high
constexpr double kLineMm = 0.15;
constexpr int kSteps = 10;  // of the staircase
constexpr std::size_t kLeastDiscs = 6;

bool meet(const Box& a, const Box& b) {
  return a.x_mm < b.x_mm + b.width_mm && b.x_mm < a.x_mm + a.width_mm && a.y_mm < b.y_mm + b.height_mm &&
         b.y_mm < a.y_mm + a.height_mm;
}

Box square_at(double x, double y, double side) { return {x - side / 2, y - side / 2, side, side}; }

// The plan while it is being made: what is taken, and what is still free.
class Planner {
 public:
  Planner(double width_mm, double height_mm, double dots_per_inch, int modules)
      : dot_(kMmPerInch / dots_per_inch), modules_(modules) {
    plan_.width_mm = width_mm;
    plan_.height_mm = height_mm;
    plan_.dots_per_inch = dots_per_inch;
  }

  Result<CalibrationPlan> make() {
    const double least = std::min(plan_.width_mm, plan_.height_mm);
    small_ = least < 70;
    plan_.edge_mm = std::clamp(std::round(least * 0.06), 3.0, 12.0);
    plan_.across_mm = std::floor(plan_.width_mm - 2 * plan_.edge_mm);
    plan_.disc_mm = std::clamp(least / 60, 2.0, 3.5);
    plan_.clear_mm = plan_.disc_mm / 2 + 1.3;
    const double bar = small_ ? 2.5 : 4;
    plan_.bar = {on_dot(2), on_dot(plan_.height_mm - plan_.edge_mm - bar), on_dot(plan_.width_mm - 4),
                 on_dot(bar)};
    plan_.down_mm = std::floor(plan_.bar.y_mm - (small_ ? 1 : kSteps + 2) - plan_.edge_mm);

    const double beside = kTickMm + (small_ ? 0.5 : 2 * kFigureMm);
    const double below = kTickMm + (small_ ? 0.5 : kFigureMm);
    inner_ = {plan_.edge_mm + beside, plan_.edge_mm + below, 0, 0};
    inner_.width_mm = plan_.width_mm - plan_.edge_mm - inner_.x_mm;
    inner_.height_mm = plan_.bar.y_mm - 1 - inner_.y_mm;
    if (!small_) inner_.height_mm -= kSteps + 2;
    if (!(inner_.width_mm > 0 && inner_.height_mm > 0) || !place_symbols()) return too_small();
    place_middle();
    place_discs();
    if (plan_.discs.size() < kLeastDiscs) return too_small();
    return plan_;
  }

 private:
  Error too_small() const {
    char page[64];
    std::snprintf(page, sizeof page, "%g x %g mm", plan_.width_mm, plan_.height_mm);
    return refused(
        std::string("a page of ") + page + " is too small for a calibration sheet",
        "the smallest is about 50 x 25 mm; calibrate the printer with a larger stock of the same width");
  }

  double on_dot(double mm) const { return std::round(mm / dot_) * dot_; }

  bool place_symbols() {
    constexpr double kLeastModuleMm = 0.38;
    const double wanted = std::clamp(std::min(plan_.width_mm, plan_.height_mm) / 300, kLeastModuleMm, 0.7);
    const int dots = std::max(static_cast<int>(std::ceil(kLeastModuleMm / dot_ - 1e-9)),
                              static_cast<int>(wanted / dot_ + 1e-9));
    const double side = (modules_ + 2 * kQuietZoneModules) * dots * dot_;
    if (side > inner_.width_mm || side > inner_.height_mm) return false;
    const double in = 2 * plan_.clear_mm + 0.3 + side / 2;  // a row of discs lies outside of them
    const double left = inner_.x_mm + in, right = inner_.x_mm + inner_.width_mm - in;
    const double top = inner_.y_mm + in, bottom = inner_.y_mm + inner_.height_mm - in;
    const double middle_x = inner_.x_mm + inner_.width_mm / 2, middle_y = inner_.y_mm + inner_.height_mm / 2;
    std::vector<PicturePoint> middles = {{middle_x, middle_y}};
    const bool wide = right - left > 2 * side, high = bottom - top > 2 * side;
    if (wide && high)
      middles = {{left, top}, {right, top}, {right, bottom}, {left, bottom}};
    else if (wide)
      middles = {{left, middle_y}, {right, middle_y}};
    else if (high)
      middles = {{middle_x, top}, {middle_x, bottom}};
    for (const auto& middle : middles) {
      plan_.symbols.push_back({middle.x, middle.y, modules_, dots});
      taken_.push_back(square_at(middle.x, middle.y, side));
    }
    return true;
  }

  // Ramps, and words under them, in the middle of the page where there is room.
  void place_middle() {
    constexpr Box kRamps{0, 0, 34, 21};
    constexpr double kWordsWidthMm = 116, kWordsHeightMm = 26;
    const double middle_x = inner_.x_mm + inner_.width_mm / 2, middle_y = inner_.y_mm + inner_.height_mm / 2;
    const auto take = [&](Box& part, const Box& box) {
      const bool inside = box.x_mm >= inner_.x_mm + 2 * plan_.clear_mm &&
                          box.y_mm >= inner_.y_mm + 2 * plan_.clear_mm &&
                          box.x_mm + box.width_mm <= inner_.x_mm + inner_.width_mm - 2 * plan_.clear_mm &&
                          box.y_mm + box.height_mm <= inner_.y_mm + inner_.height_mm - 2 * plan_.clear_mm;
      if (!inside ||
          std::any_of(taken_.begin(), taken_.end(), [&](const Box& other) { return meet(box, other); }))
        return false;
      part = box;
      taken_.push_back(box);
      return true;
    };
    take(plan_.words,
         {middle_x - kWordsWidthMm / 2, middle_y - kWordsHeightMm - 1, kWordsWidthMm, kWordsHeightMm});
    for (const double y : {middle_y + 1, middle_y - kRamps.height_mm / 2})
      if (take(plan_.ramps,
               {on_dot(middle_x - kRamps.width_mm / 2), on_dot(y), kRamps.width_mm, kRamps.height_mm}))
        break;
    if (!small_)
      plan_.staircase = {on_dot(plan_.edge_mm), on_dot(plan_.bar.y_mm - 1 - kSteps), plan_.across_mm, kSteps};
  }

  // On a grid over all that is left, to the ends of it both ways.
  void place_discs() {
    constexpr double kPitchMm = 28;
    const auto count = [](double length, int least) {
      return std::max(static_cast<int>(std::lround(length / kPitchMm)) + 1, least);
    };
    const int across = count(inner_.width_mm, 5), down = count(inner_.height_mm, 3);
    const double first_x = inner_.x_mm + plan_.clear_mm, first_y = inner_.y_mm + plan_.clear_mm;
    const double pitch_x = (inner_.width_mm - 2 * plan_.clear_mm) / (across - 1);
    const double pitch_y = (inner_.height_mm - 2 * plan_.clear_mm) / (down - 1);
    if (std::min(pitch_x, pitch_y) < 2 * plan_.clear_mm) return;
    for (int row = 0; row < down; ++row)
      for (int column = 0; column < across; ++column) {
        const PicturePoint at{on_dot(first_x + column * pitch_x), on_dot(first_y + row * pitch_y)};
        const Box box = square_at(at.x, at.y, 2 * plan_.clear_mm);
        if (std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) { return meet(box, other); }))
          plan_.discs.push_back(at);
      }
  }

  CalibrationPlan plan_;
  double dot_;
  int modules_;
  bool small_ = false;
  Box inner_;
  std::vector<Box> taken_;
};

Result<SymbolMatrix> matrix_of(const CalibrationCode& code) {
  return encode_strongest(write_calibration_code(code), 2);
}

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
    std::snprintf(what, sizeof what,
                  "Calibration sheet, %g x %g mm, %g dots per inch%s. Print at actual size, ", plan_.width_mm,
                  plan_.height_mm, plan_.dots_per_inch, corrected ? ", corrected" : "");
    const std::string text =
        what +
        std::string(
            "never \"fit to page\". Scan all of it, straight on the glass, with something dark behind it. ") +
        "Or measure: paper's left edge to upright line, upper edge to level line, length of both lines.";
    return word(text, box, Slot::Align::middle, 5);
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

double hundredths(double value) { return std::round(value * kHundredth) / kHundredth; }

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

Result<CalibrationPlan> plan_calibration(double width_mm, double height_mm, double dots_per_inch) {
  const CalibrationCode code{hundredths(width_mm), hundredths(height_mm), hundredths(dots_per_inch)};
  auto matrix = matrix_of(code);
  if (!matrix) return matrix.error();
  return Planner(code.width_mm, code.height_mm, code.dots_per_inch, matrix->modules).make();
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
