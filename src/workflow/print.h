// Printing: sheets of tag pairs, the next copy of a half, identification labels. Turns what the record knows
// of a number into what a tag shows; the drawing is the sheet room's.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "custody/event.h"
#include "sheet/sheet.h"
#include "workflow/desk.h"

namespace counterfoil {

struct PrintTerms {
  std::string templates;                // folder with stocks/ and designs/
  std::string stock;                    // name; empty: kUsualStock
  std::optional<double> dots_per_inch;  // else the printer profile's, else 300
  std::string path;                     // ends in .pdf, .png or .svg
  std::string printer{};                // file of a profile, by which the sheet is corrected; empty: none
};
inline constexpr const char* kUsualStock = "a4-2x4";
// What is drawn by such terms, without any tag yet.
Result<SheetOrder> sheet_order(const PrintTerms& terms, std::string title, const Moment& now);

struct PrintOrder {
  PrintTerms terms;
  std::string turnaround;            // all its pairs that are not voided, or
  std::vector<std::string> numbers;  // these, as typed
  std::string by;
};
struct Printed {
  SheetReport sheet;
  std::vector<Number> numbers;
  std::optional<Moment> before;  // when this turnaround's sheet was printed before
};
// The newest copy of each half. A turnaround's printing is an event.
Result<Printed> print_pairs(Desk& desk, const PrintOrder& order);

struct ReprintOrder {
  PrintTerms terms;
  std::vector<std::string> numbers;  // as typed
  std::optional<Half> half;          // both when absent
  std::string reason, by;
};
// The same numbers, next copy. Drawn before it is logged: a copy that could not be drawn is not counted.
// Refuses numbers that are not issued or are voided.
Result<Printed> reprint_halves(Desk& desk, const ReprintOrder& order);

// The label of a removal that was logged with one.
Result<SheetReport> print_label(const Desk& desk, const Event& removal, const PrintTerms& terms);

Result<std::vector<Stock>> stocks(const std::string& templates);

}  // namespace counterfoil
