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

MatchBars match_bars(std::uint32_t mark, const CutLine& cut) {
  const double length = cut.to_mm - cut.from_mm;
  const double pitch = std::min(kPitchMm, length / (kBars + 2));
  const double narrowest = kNarrowestMm * pitch / kPitchMm;
  const double first = (cut.from_mm + cut.to_mm) / 2 - pitch * (kBars - 1) / 2;  // its middle
  MatchBars bars;
  bars.reach_mm = cut.gap_mm / 2 + kMarkReachMm;
  for (int i = 0; i < kBars; ++i) {
    const double width = narrowest * (1 + (mark >> (2 * i) & 3));
    const double start = first + pitch * i - width / 2;
    if (i == 0)
      bars.from_mm = start;
    else
      bars.lengths_mm.push_back(start - bars.to_mm);
    bars.lengths_mm.push_back(width);
    bars.to_mm = start + width;
  }
  bars.lengths_mm.push_back(pitch);  // dashes go in pairs; the line ends before this gap
  return bars;
}

}  // namespace counterfoil
