// The print check: scans of printed sheets held against what should be on them. Every tag present, in its place, beside
// its other half, readable, and well printed; the page in its size and place, all dots printed, the right stock. By
// the formulae of ISO/IEC 15415:2011 (grade/thresholds.h), but from a scanner that nobody has calibrated: this is not an
// ISO grade. Writes nothing but the marked pictures.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "grade/symbol_check.h"
#include "identity/payload.h"
#include "workflow/missing_dots.h"
#include "workflow/page_fit.h"
#include "workflow/print.h"
#include "workflow/print_finding.h"
#include "workflow/printed_ink.h"
#include "workflow/read.h"

namespace counterfoil {

struct CheckedTag {
  std::string text;                       // of its symbol, as it should be
  std::optional<Payload> payload;         // what that says
  int label = 0;                          // of the page, from 1, row by row
  bool read = false;                      // decoded by the reader
  std::optional<SymbolCheck> check;       // when its symbol was found
  std::optional<PicturePoint> stray_mm;   // from where the page's other tags have it
  std::array<PicturePoint, 4> outline{};  // of the symbol, or of where it should be, on the scan
  std::vector<PrintFinding> findings;     // the worst first
  std::vector<InkFinding> ink;  // those of them that are of words, sides and match bars, with their places
  PrintVerdict verdict = PrintVerdict::good;
};

struct CheckedPage {
  std::string file;
  int file_page = 1;                   // of a PDF or TIFF
  int page = 0;                        // of the sheets, from 1; 0 when nothing of it was found
  double width_mm = 0, height_mm = 0;  // of the stock's page
  std::optional<Affine> map;  // from mm of the page to pixels; nothing when no symbol could be measured
  std::optional<PageGeometry> geometry;
  double rms_mm = 0;  // of the symbols' places that go together
  std::vector<MissingDots> missing_dots;
  std::vector<CheckedTag> tags;
  std::vector<PrintFinding> findings;  // of the page as a whole
  PrintVerdict verdict = PrintVerdict::good;
  std::string marked;  // the file that was written; empty if none was asked for
};

struct PrintCheck {
  std::vector<CheckedPage> pages;  // scan by scan
  int sheets = 0;                  // that the order has
  std::vector<int> not_scanned;    // sheets, from 1
  PrintVerdict verdict = PrintVerdict::good;
};

struct PrintCheckOrder {
  PrintOrder print;  // as it was given to print; `path` and `by` are not used
  std::vector<std::string> scans;
  int page = 0;              // the sheet that all scans show; 0: whichever they show
  double dots_per_inch = 0;  // of the scans; 0: the nearest usual resolution
  std::string marked;        // PNG; more than one picture gets "-1", "-2" before the ending. Empty: none
  ReadingTerms reading;
};

// Malformed: no scan, a page that the order does not have, and what plan_sheet refuses.
Result<PrintCheck> check_print(const Desk& desk, const PrintCheckOrder& order);

}  // namespace counterfoil
