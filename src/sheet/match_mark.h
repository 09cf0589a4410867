// Inside the sheet room: the bars across the cut line that tell whether two halves belong together. Sixteen
// bars at one pitch; each is as wide as two bits of the mark say, so that bars of one pair meet at the cut
// and others do not. At one pitch with four widths they form no barcode that a reader would take for one.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "sheet/stock.h"

namespace counterfoil {

inline constexpr double kMarkReachMm = 3.2;  // into each half: a cut may wander by 3 mm

// The cut line between two halves of one pair: between the facing edges, from end to end.
struct CutLine {
  bool upright = true;  // the halves lie side by side
  double at_mm = 0;     // x of an upright line, y of a level one
  double from_mm = 0, to_mm = 0;
  double gap_mm = 0;  // between the two labels, the line in its middle
};

CutLine cut_between(const Box& bag, const Box& box);

// The bars as dashes of a line: ink and gap in turn, from `from_mm` on its axis to the last bar's end.
struct MatchBars {
  bool upright = true;
  double at_mm = 0;
  double from_mm = 0, to_mm = 0;
  double reach_mm = 0;  // to both sides of the line
  std::vector<double> lengths_mm;
};

// Across the cut, into both halves.
MatchBars bars_across(std::uint32_t mark, const CutLine& cut);

// Along an edge, inside it, for halves that are printed apart: put edge to edge the bars of a pair meet. `turned`
// where this half lies turned by 180 degrees then. `ends_mm` is kept free at both ends of the edge.
MatchBars bars_inside(std::uint32_t mark, const Box& half, Stock::Edge edge, double ends_mm, bool turned);

// Whether the halves of a pair face each other across a cut, so that their bars are one mark.
bool bars_cross_cut(const Stock& stock, bool box_half);

// What is drawn with this half of a pair, `own`: bars across the cut come with the box half, for which `bag` is where
// the other one lies. Nothing with stocks that leave no room for any.
std::optional<MatchBars> bars_of(const Stock& stock, std::uint32_t mark, bool box_half, const Box& bag,
                                 const Box& own);

}  // namespace counterfoil
