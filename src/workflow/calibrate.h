// Calibrating a printer: the sheet that is printed, and the printer's profile from pictures of it or from what a person
// measured on it with a rule.
//
// What the printer did and what the camera did are told apart by the paper. Its four edges say where the page lies, so
// offset and turn need a picture with all edges against something darker. Lengths come from
//   - a flatbed scan's dots per inch, stated in the file or by the user: as good as the scanner, which may be a few
//     tenths of a percent off; scanned again a quarter turn round, the scanner's own difference between its two ways
//     falls out of the mean;
//   - or, of a photograph, the paper's own size. Paper may be 2 mm off its nominal size (ISO 216:2007: 1.5 mm up to
//     150 mm, 2 mm up to 600 mm; from memory), so that is good for half a percent unless its size was measured;
//   - or the lengths of the two lines, measured with a rule.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/moment.h"
#include "printer/profile.h"
#include "sheet/document.h"

namespace counterfoil {

// A printer's dots per inch as typed, or those of a profile's file, which have to agree; 300 where there is neither.
Result<double> dots_of(const std::optional<double>& typed, const std::string& printer);

// What the sheet is for.
struct CalibrationTerms {
  std::string templates, stock;  // as in PrintTerms
  std::optional<double> dots_per_inch;
  std::string printer;  // file of a profile: the sheet is corrected by it and shows what is left; empty: none
};
Result<DocumentReport> print_calibration(const CalibrationTerms& terms, const std::string& path,
                                         const Moment& now);

// As measured with a rule, mm.
struct RuleMeasures {
  // From the paper's left edge to the upright line, at its upper and at its lower end; from the upper edge to the level
  // line, at its left and at its right end. One number stands for both ends.
  std::vector<double> left, top;
  std::optional<double> across, down;  // lengths of the level and of the upright line

  bool empty() const { return left.empty() && top.empty() && !across && !down; }
};

struct CalibrationOrder {
  std::vector<std::string> pictures;  // each of the same sheet, scanned or photographed whole
  std::optional<double>
      scan_dpi;  // of the pictures; else what the files say, if the paper's size bears it out
  struct PaperSize {
    double width_mm = 0, height_mm = 0;
  };
  std::optional<PaperSize> paper;  // as measured; else as its stock says
  RuleMeasures rule;
  // The sheet's stock and dots, where there is no picture that says them.
  CalibrationTerms terms;
  std::string name;  // of the printer
};

struct Calibration {
  PrinterProfile profile;
  double page_width_mm = 0, page_height_mm = 0;
  bool corrected =
      false;  // the sheet was drawn with a correction: this is what is left, and no profile to print by
  int marks = 0, marks_left_out = 0, marks_missing = 0;  // over all pictures
  double rms_mm = 0;  // of the marks about the profile's map; 0 without a picture
  // How sure the figures are by the marks' scatter alone, in one picture, and how far apart several pictures are.
  double offset_error_mm = 0, scale_error = 0;
  double offset_spread_mm = 0, scale_spread = 0;
  bool dead_columns_known = false;
};

// `refused` when a picture shows no calibration sheet, too few of its marks, or not the paper's edges; when the marks do
// not lie on a straight map (a curled paper, a lens that bends); or when the dots per inch cannot be those of this paper.
Result<Calibration> calibrate(const CalibrationOrder& order, const Moment& now);

// "7.3" or "7.3,7.6"; the second may be left out where `most` is 2.
Result<std::vector<double>> parse_lengths(const std::string& typed, const std::string& option,
                                          std::size_t most);

}  // namespace counterfoil
