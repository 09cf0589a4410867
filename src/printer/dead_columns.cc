#include <algorithm>
#include <cmath>

#include "printer/marks.h"
#include "recovery/pixel.h"

namespace counterfoil {
namespace {

constexpr double kLeastPixelsPerDot = 0.45;
constexpr int kRows = 24;  // of the bar's height that are averaged
constexpr double kLeastContrast = 40;
constexpr double kLeastRise = 0.07;  // of the contrast
constexpr double kNoises = 6;
constexpr double kWindowDots = 12;     // to both sides, for what is usual there
constexpr int kMostDotsTogether = 24;  // more is a scratch or a fold
constexpr double kValley = 0.5;        // of the peak before it
constexpr double kClosed = 0.15;  // of a dot: ink spreads into a gap and makes it look narrower, never wider

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

// Along the bar: the mean grey of its height, at even steps.
std::vector<double> profile_of(GreyView picture, const Projective& page, double x, double step, std::size_t n,
                               double top, double height) {
  std::vector<double> values(n);
  for (std::size_t i = 0; i < n; ++i) {
    double sum = 0;
    for (int row = 0; row < kRows; ++row) {
      const PicturePoint at = page(x + static_cast<double>(i) * step, top + height * (row + 0.5) / kRows);
      sum += double{grey_at(picture, at.x, at.y)};
    }
    values[i] = sum / kRows;
  }
  return values;
}

}  // namespace

std::optional<std::vector<int>> dead_columns(GreyView picture, const Projective& page, const SolidBar& bar) {
  if (picture.empty() || !(bar.dot_mm > 0 && bar.width_mm > 50 * bar.dot_mm)) return std::nullopt;
  const PicturePoint from = page(bar.x_mm, bar.y_mm), to = page(bar.x_mm + bar.width_mm, bar.y_mm);
  const double pixels_per_mm = std::hypot(to.x - from.x, to.y - from.y) / bar.width_mm;
  if (!(pixels_per_mm * bar.dot_mm >= kLeastPixelsPerDot)) return std::nullopt;
  const double step = std::min(bar.dot_mm / 3, 0.5 / pixels_per_mm);
  const auto n = static_cast<std::size_t>(bar.width_mm / step);
  if (n > 1'000'000) return std::nullopt;
  // Its upper and lower rims are left out.
  const auto values =
      profile_of(picture, page, bar.x_mm, step, n, bar.y_mm + 0.2 * bar.height_mm, 0.6 * bar.height_mm);
  const auto above = profile_of(picture, page, bar.x_mm, step * 10, n / 10, bar.y_mm - 0.65 * bar.blank_mm,
                                0.3 * bar.blank_mm);
  const double dark = median(values), contrast = median(above) - dark;
  if (contrast < kLeastContrast) return std::nullopt;

  const auto reach = static_cast<std::size_t>(kWindowDots * bar.dot_mm / step);
  std::vector<double> rise(n), steady;
  std::vector<bool> printed(n);
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t first = i > reach ? i - reach : 0, last = std::min(i + reach + 1, n);
    // Every third is enough for a median.
    std::vector<double> around;
    for (std::size_t k = first; k < last; k += 3) around.push_back(values[k]);
    const double usual = median(std::move(around));
    rise[i] = values[i] - usual;
    printed[i] = usual - dark < contrast / 2;
    if (printed[i]) steady.push_back(std::abs(rise[i]));
  }
  if (steady.empty()) return std::nullopt;
  const double least = std::max(kNoises * 1.4826 * median(std::move(steady)), kLeastRise * contrast);

  std::vector<int> dead;
  const auto a_dot = static_cast<std::size_t>(bar.dot_mm / step) + 1;
  std::size_t first_free = 0;
  for (std::size_t i = 0; i < n; ++i) {
    if (!printed[i] || rise[i] < least) continue;
    double area = 0, moment = 0, peak = 0;
    std::size_t begin = i;
    while (begin > first_free && rise[begin - 1] > least / 4) --begin;
    std::size_t end = begin;
    for (; end < n && rise[end] > least / 4; ++end) {
      peak = std::max(peak, rise[end]);
      // A column that prints, between two that do not, is a valley.
      const auto ahead = rise.begin() + static_cast<std::ptrdiff_t>(end);
      const auto near = rise.begin() + static_cast<std::ptrdiff_t>(std::min(end + a_dot, n));
      if (rise[end]<kValley * peak&& * std::max_element(ahead, near)> std::max(2 * rise[end], least)) break;
      area += rise[end];
      moment += rise[end] * static_cast<double>(end);
    }
    first_free = end;
    i = end;
    // Where the bar itself ends, or the printer could reach no further.
    const auto rim = static_cast<std::size_t>(2 * bar.dot_mm / step) + 1;
    if (begin < rim || end + rim >= n || !printed[begin - rim] || !printed[end + rim]) continue;
    const double gap_mm = area / contrast * step;
    const double middle_mm = bar.x_mm + moment / area * step;
    const int dots = std::max(1, static_cast<int>(std::ceil(gap_mm / bar.dot_mm - kClosed)));
    if (dots > kMostDotsTogether) continue;
    const auto first = static_cast<int>(std::lround(middle_mm / bar.dot_mm - dots / 2.0));
    for (int k = 0; k < dots; ++k)
      if (dead.empty() || dead.back() < first + k) dead.push_back(first + k);
  }
  return dead;
}

}  // namespace counterfoil
