// The options that print, reprint and labels share.
#pragma once

#include <limits>
#include <string>
#include <vector>

#include "cli/command.h"
#include "workflow/print.h"

namespace counterfoil {

struct PrintOptions {
  std::string stock, out, printer, preview, to, design, second_language;
  double dots_per_inch = std::numeric_limits<double>::quiet_NaN();  // until it is given
  PaperTerms paper;

  std::vector<Option> options(const char* usual_file);
  // Those of them that say what comes on a sheet, and where.
  std::vector<Option> sheet_options();
  // Those of an identification label that goes with an entry.
  std::vector<Option> label_options();
  // A preview that is asked for alone is all that comes of it.
  PrintTerms terms(const Context& context, const std::string& usual_file) const;
  // One of them that was given, by its name; empty: none was.
  std::string given() const;
};

// "starts at label 5 of the sheet on top of stack drawer 2; leaves 3 labels (6-8)"; nothing without paper to speak
// of.
void show_paper(const Printed& printed);

// --printer, where it stands alone.
Option printer_option(std::string* printer);
// Says it, if dead dots spoil a symbol, or the printer does not reach all of a tag.
void note_printer_faults(const SheetReport& sheet);

// What was written, and how to print it so that it comes out right.
void show_sheet(const Context& context, const Printed& printed);

}  // namespace counterfoil
