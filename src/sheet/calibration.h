// The calibration sheet: what a printer is measured by. Discs at known places, of which a picture shows the middle to a
// few micrometres; symbols that say what sheet this is, so that a picture is enough; rulers along two edges for people
// without a scanner; ramps of lines 1, 2, 3, 4 dots wide; a staircase and a solid bar in which a dead dot of the head
// shows as a gap and as a white line.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/affine.h"
#include "base/grey.h"
#include "sheet/document.h"
#include "sheet/stock.h"

namespace counterfoil {

// What one of the sheet's symbols says. "CF.CAL1/21000X29700/30000/2": page in hundredths of a mm, dots per inch in
// hundredths, which symbol; "CF.CHK1/..." on a sheet that was drawn with a correction, to see what is left. Do not
// change: printed. No tag's payload (identity/payload.h) begins so.
struct CalibrationCode {
  double width_mm = 0, height_mm = 0;
  double dots_per_inch = 0;
  int symbol = 1;  // from 1
  bool corrected = false;
};
std::string write_calibration_code(const CalibrationCode& code);
// `refused` when the text is none of ours, `malformed` when it is and cannot be.
Result<CalibrationCode> parse_calibration_code(std::string_view text);

// Where everything lies, mm from the paper's top left corner; the same for the same code.
struct CalibrationPlan {
  double width_mm = 0, height_mm = 0;
  double dots_per_inch = 0;
  double edge_mm = 0;  // from the paper's left and upper edge to the rulers' lines, whole mm
  // The rulers begin there with 1 mm between ticks and end with their last whole mm: the lengths of the lines.
  double across_mm = 0, down_mm = 0;

  struct Symbol {
    double middle_x_mm = 0, middle_y_mm = 0;
    int modules = 0, dots_per_module = 0;
  };
  std::vector<Symbol> symbols;
  std::vector<PicturePoint> discs;  // middles, on whole dots
  double disc_mm = 0;               // diameter
  double clear_mm = 0;              // from a disc's middle, nothing else is nearer
  Box bar;                          // solid
  Box ramps, words, staircase;      // width 0 where there is no room; fewer words on a small page
};

// `refused` when the page is too small, with a size that would do.
Result<CalibrationPlan> plan_calibration(double width_mm, double height_mm, double dots_per_inch);

// One page. `correction`: as in SheetOrder; a sheet with one shows what is left.
Result<DocumentReport> draw_calibration(const DocumentOrder& order, const Affine& correction);

}  // namespace counterfoil
