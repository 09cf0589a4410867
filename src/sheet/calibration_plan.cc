#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

#include "sheet/calibration_parts.h"
#include "sheet/measure.h"

namespace counterfoil {
namespace {

constexpr std::size_t kLeastDiscs = 6;
constexpr double kFarthestWordsMm = 300;  // from the page's corner
constexpr std::array<Box, 4> kFewWordsMm = {
    {{0, 0, 56, 9}, {0, 0, 36, 12.4}, {0, 0, 24, 12.4}, {0, 0, 22, 4.5}}};

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

  // Whether there is room.
  bool make() {
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
    if (!(inner_.width_mm > 0 && inner_.height_mm > 0) || !place_symbols()) return false;
    place_middle();
    place_discs();
    if (plan_.words.width_mm == 0) place_few_words();
    return plan_.discs.size() >= kLeastDiscs;
  }

  CalibrationPlan plan() const { return plan_; }

 private:
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

  // On a small page, wherever discs and symbols leave room.
  void place_few_words() {
    for (const auto& disc : plan_.discs) taken_.push_back(square_at(disc.x, disc.y, 2 * plan_.clear_mm));
    const double right = std::min(inner_.right_mm(), kFarthestWordsMm);
    const double bottom = std::min(inner_.bottom_mm(), kFarthestWordsMm);
    for (const auto& size : kFewWordsMm)
      for (double y = inner_.y_mm; y + size.height_mm <= bottom; ++y)
        for (double x = inner_.x_mm; x + size.width_mm <= right; ++x) {
          const Box box{x, y, size.width_mm, size.height_mm};
          if (std::none_of(taken_.begin(), taken_.end(),
                           [&](const Box& other) { return meet(box, other); })) {
            plan_.words = box;
            return;
          }
        }
  }

  CalibrationPlan plan_;
  double dot_;
  int modules_;
  bool small_ = false;
  Box inner_;
  std::vector<Box> taken_;
};

// With what would do: the page made longer, as a roll's label may be, or else wider as well.
template <typename Does>
Error too_small(const CalibrationCode& code, Does does) {
  constexpr double kMostMm = 100;  // high, where all that matters has room; and three times as wide
  double width = code.width_mm, height = std::min(std::ceil(code.height_mm), kMostMm);
  while (width < 3 * kMostMm && !does(width, std::max(height, kMostMm))) width = std::floor(width) + 1;
  while (height < kMostMm && !does(width, height)) ++height;
  char text[200];
  std::snprintf(text, sizeof text,
                "a page of %g x %g mm is too small for a calibration sheet at %g dots per inch",
                code.width_mm, code.height_mm, code.dots_per_inch);
  std::array<char, 120> hint{};
  if (does(width, height))
    std::snprintf(hint.data(), hint.size(),
                  "%g x %g mm would do: calibrate with a larger stock on the same printer", width, height);
  return refused(text, hint.data());
}

double hundredths(double value) { return std::round(value * kHundredth) / kHundredth; }

}  // namespace

Result<SymbolMatrix> matrix_of(const CalibrationCode& code) {
  return encode_strongest(write_calibration_code(code), 2);
}

Result<CalibrationPlan> plan_calibration(double width_mm, double height_mm, double dots_per_inch) {
  const CalibrationCode code{hundredths(width_mm), hundredths(height_mm), hundredths(dots_per_inch)};
  auto matrix = matrix_of(code);
  if (!matrix) return matrix.error();
  const auto planner = [&](double width, double height) {
    return Planner(width, height, code.dots_per_inch, matrix->modules);
  };
  if (auto plan = planner(code.width_mm, code.height_mm); plan.make()) return plan.plan();
  const auto does = [&](double width, double height) { return planner(width, height).make(); };
  return too_small(code, does);
}

}  // namespace counterfoil
