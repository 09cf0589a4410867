#include "sheet/match_mark.h"

#include <algorithm>

namespace counterfoil {
namespace {

constexpr int kBars = 16;
constexpr double kPitchMm = 3;
constexpr double kNarrowestMm = 0.5;  // the other widths are two, three and four times it

}  // namespace

CutLine cut_between(const Box& bag, const Box& box) {
  CutLine cut;
  cut.upright = box.x_mm > bag.x_mm;
  if (cut.upright) {
    cut.gap_mm = box.x_mm - (bag.x_mm + bag.width_mm);
    cut.at_mm = box.x_mm - cut.gap_mm / 2;
    cut.from_mm = bag.y_mm;
    cut.to_mm = bag.y_mm + bag.height_mm;
  } else {
    cut.gap_mm = box.y_mm - (bag.y_mm + bag.height_mm);
    cut.at_mm = box.y_mm - cut.gap_mm / 2;
    cut.from_mm = bag.x_mm;
    cut.to_mm = bag.x_mm + bag.width_mm;
  }
  return cut;
}

std::vector<Box> match_bars(std::uint32_t mark, const CutLine& cut) {
  const double length = cut.to_mm - cut.from_mm;
  const double pitch = std::min(kPitchMm, length / (kBars + 2));
  const double narrowest = kNarrowestMm * pitch / kPitchMm;
  const double first = (cut.from_mm + cut.to_mm) / 2 - pitch * (kBars - 1) / 2;
  const double reach = cut.gap_mm / 2 + kMarkReachMm;
  std::vector<Box> bars;
  for (int i = 0; i < kBars; ++i) {
    const double width = narrowest * (1 + (mark >> (2 * i) & 3));
    const double along = first + pitch * i - width / 2;
    if (cut.upright)
      bars.push_back({cut.at_mm - reach, along, 2 * reach, width});
    else
      bars.push_back({along, cut.at_mm - reach, width, 2 * reach});
  }
  return bars;
}

}  // namespace counterfoil
