#include "sheet/match_mark.h"

#include <algorithm>

namespace counterfoil {
namespace {

constexpr int kBars = 16;
constexpr double kPitchMm = 3;
constexpr double kNarrowestMm = 0.5;  // the other widths are two, three and four times it

void lay_bars(MatchBars& bars, std::uint32_t mark, double from_mm, double to_mm, bool turned) {
  const double pitch = std::min(kPitchMm, (to_mm - from_mm) / (kBars + 2));
  const double narrowest = kNarrowestMm * pitch / kPitchMm;
  const double first = (from_mm + to_mm) / 2 - pitch * (kBars - 1) / 2;  // its middle
  for (int i = 0; i < kBars; ++i) {
    const int bit = 2 * (turned ? kBars - 1 - i : i);
    const double width = narrowest * (1 + (mark >> bit & 3));
    const double start = first + pitch * i - width / 2;
    if (i == 0)
      bars.from_mm = start;
    else
      bars.lengths_mm.push_back(start - bars.to_mm);
    bars.lengths_mm.push_back(width);
    bars.to_mm = start + width;
  }
  bars.lengths_mm.push_back(pitch);  // dashes go in pairs; the line ends before this gap
}

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

MatchBars bars_across(std::uint32_t mark, const CutLine& cut) {
  MatchBars bars;
  bars.upright = cut.upright;
  bars.at_mm = cut.at_mm;
  bars.reach_mm = cut.gap_mm / 2 + kMarkReachMm;
  lay_bars(bars, mark, cut.from_mm, cut.to_mm, false);
  return bars;
}

MatchBars bars_inside(std::uint32_t mark, const Box& half, Stock::Edge edge, double ends_mm, bool turned) {
  MatchBars bars;
  bars.upright = edge == Stock::Edge::left || edge == Stock::Edge::right;
  bars.reach_mm = kMarkReachMm / 2;
  if (edge == Stock::Edge::left) bars.at_mm = half.x_mm + bars.reach_mm;
  if (edge == Stock::Edge::right) bars.at_mm = half.right_mm() - bars.reach_mm;
  if (edge == Stock::Edge::top) bars.at_mm = half.y_mm + bars.reach_mm;
  if (edge == Stock::Edge::bottom) bars.at_mm = half.bottom_mm() - bars.reach_mm;
  const double from = bars.upright ? half.y_mm : half.x_mm;
  const double to = bars.upright ? half.bottom_mm() : half.right_mm();
  lay_bars(bars, mark, from + ends_mm, to - ends_mm, turned);
  return bars;
}

bool bars_cross_cut(const Stock& stock, bool box_half) {
  const auto edge = stock.mark_edge(box_half);
  return edge == Stock::facing_edge(stock.pairing, box_half) && stock.pairs_per_page() > 0;
}

std::optional<MatchBars> bars_of(const Stock& stock, std::uint32_t mark, bool box_half, const Box& bag,
                                 const Box& own) {
  if (bars_cross_cut(stock, box_half))
    return box_half ? std::optional(bars_across(mark, cut_between(bag, own))) : std::nullopt;
  const auto edge = stock.mark_edge(box_half);
  if (!edge) return std::nullopt;
  const bool turned = box_half && stock.mark_edge(false) == edge;
  return bars_inside(mark, own, *edge, stock.mark_ends_mm(*edge), turned);
}

}  // namespace counterfoil
