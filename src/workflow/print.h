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
  std::string templates;  // folder with stocks/ and designs/
  std::string stock;      // name; empty: kUsualStock
  double dots_per_inch = 300;
  std::string path;  // ends in .pdf, .png or .svg
};
inline constexpr const char* kUsualStock = "a4-2x4";

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
// What print_pairs draws: one order for all pages. `path` of the terms is looked at by its ending only.
struct PlannedSheet {
  SheetOrder order;
  std::vector<SheetItem> items;
  std::vector<Number> numbers;  // of the items
};
Result<PlannedSheet> plan_sheet(const Desk& desk, const PrintOrder& order);
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
