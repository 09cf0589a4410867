// Printing: sheets of tag pairs, the next copy of a half, identification labels. Turns what the record knows
// of a number into what a tag shows; the drawing is the sheet room's.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "custody/event.h"
#include "queue/queue.h"
#include "sheet/sheet.h"
#include "workflow/desk.h"
#include "workflow/paper.h"
#include "workflow/stocks.h"

namespace counterfoil {

struct PrintTerms {
  std::string templates;                // folder with stocks/, designs/ and words/
  std::string stock;                    // name, or a file of a user's own; empty: kUsualStock
  std::optional<double> dots_per_inch;  // else the printer profile's, else 300
  std::string path;                     // ends in .pdf, .png or .svg
  std::string preview{};                // ends in .png; empty: none
  bool preview_only = false;            // all is checked and counted, and the preview is all that comes of it
  PaperTerms paper{};
  std::string order{};            // "sheet-by-sheet", which empty means too, or "cut-and-stack"
  int copies = 1;                 // of identification labels
  std::string printer{};          // file of a profile, by which the sheet is corrected; empty: none
  std::string to{};               // the print queue or printer that is sent the files; empty: none
  std::string design{};           // "large": the size of designs; empty: the largest that fits the stock
  std::string second_language{};  // "es": standing words in it as well; empty: in English only
};
inline constexpr int kMostCopies = 1000;

struct PrintOrder {
  PrintTerms terms;
  std::string turnaround;            // all its pairs that are not voided, or
  std::vector<std::string> numbers;  // these, as typed
  std::string by;
};
// That a printer took the files; whether they came out, only somebody who looks can tell.
struct Sending {
  std::string to;
  std::vector<int> jobs;  // the printer's numbers, one a file
  bool unscaled = false;  // the printer says that it can print a page in its own size
};
// Pairs that came out before.
struct PrintedBefore {
  Moment last;
  std::vector<Number> pairs;
};
// What a reprint makes of a number.
struct NextCopies {
  Number number;
  std::vector<HalfSeen> halves;
};
struct Printed {
  SheetReport sheet;
  double dots_per_inch = 0;
  std::vector<Number> numbers;
  std::vector<Number> named_again;  // which stood more than once among those typed, and are printed once
  std::optional<PrintedBefore> before;
  std::vector<NextCopies> copies;  // of a reprint
  std::string paper;               // what it takes from its stack or part sheet, for people
  std::optional<Stack> stack;      // as it is then
  std::optional<Sending> sent;
  bool logged = false;  // not what is only previewed
};
// What print_pairs draws: one order for all pages, on whole sheets. `path` of the terms is looked at by its ending only.
struct PlannedSheet {
  SheetOrder order;
  std::vector<SheetItem> items;
  std::vector<Number> numbers;  // of the items
};
Result<PlannedSheet> plan_sheet(const Desk& desk, const PrintOrder& order);
// Of pairs just issued, the texts that will have no room on the tags: all of them, and a stock that has it. Nothing when
// all have room.
Result<std::optional<Error>> names_without_room(const Desk& desk, const std::vector<LoggedEvent>& issued,
                                                const std::string& templates, const std::string& stock);

// The newest copy of each half. A turnaround's printing is an event, and so is that of each number.
// Refuses more than one copy of a pair: two tags with one number would be two valves with one history.
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

// Whether a label can be printed so, before its removal is logged: not what it says, but on what and how.
Result<void> check_label_terms(const Desk& desk, const PrintTerms& terms);

// The label of a removal that was logged with one. An event if it takes paper from a stack.
Result<Printed> print_label(Desk& desk, const Event& removal, const PrintTerms& terms);

}  // namespace counterfoil
