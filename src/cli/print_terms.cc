#include "cli/print_terms.h"

#include <cmath>
#include <cstdio>

#include "base/text.h"
#include "cli/output.h"

namespace counterfoil {

Option printer_option(std::string* printer) {
  return {
      "--printer", "FILE",
      "correct the printer's errors by this profile, which `counterfoil calibrate` makes; also says its dots",
      printer};
}

std::vector<Option> PrintOptions::options(const char* usual_file) {
  return {
      {"--stock", "NAME",
       "what is printed on; `counterfoil stocks` lists them (" + std::string(kUsualStock) + ")", &stock},
      {"--dpi", "N", "the printer's dots per inch: 203.2, 300, 304.8, 600 (300)", &dots_per_inch},
      printer_option(&printer),
      {"--out", "FILE", "ends in .pdf, .png or .svg (" + std::string(usual_file) + ")", &out},
  };
}

PrintTerms PrintOptions::terms(const Context& context, const char* usual_file) const {
  const auto dots = std::isnan(dots_per_inch) ? std::nullopt : std::optional(dots_per_inch);
  return {context.templates, stock, dots, out.empty() ? usual_file : out, printer};
}

void note_printer_faults(const SheetReport& sheet) {
  if (sheet.on_dead_columns > 0)
    show_note("dead dots of the printer run through " +
              counted(static_cast<std::uint64_t>(sheet.on_dead_columns), "symbol") +
              ": read them before they are used, or take another printer");
  if (sheet.out_of_reach > 0)
    show_note("by its profile the printer prints nothing where part of " +
              counted(static_cast<std::uint64_t>(sheet.out_of_reach), "tag") + " lies: look for what is missing");
}

void show_sheet(const Context& context, const Printed& printed) {
  const SheetReport& sheet = printed.sheet;
  const long micrometres = std::lround(sheet.least_module_mm * 1000);
  if (context.json) {
    Json::Array files, numbers;
    for (const auto& file : sheet.files) files.emplace_back(file);
    for (const auto& number : printed.numbers) numbers.emplace_back(number.text());
    show_json({{"files", std::move(files)},
               {"pages", sheet.pages},
               {"tags", sheet.tags},
               {"least_module_um", std::int64_t{micrometres}},
               {"numbers", std::move(numbers)},
               {"printed_before", printed.before ? Json(to_text(*printed.before)) : Json()}});
    return;
  }
  char module[32];
  std::snprintf(module, sizeof module, "%.3f", sheet.least_module_mm);
  std::string files;
  for (const auto& file : sheet.files) files += (files.empty() ? "" : ", ") + file;
  say(counted(static_cast<std::uint64_t>(sheet.tags), "tag") + " on " +
      counted(static_cast<std::uint64_t>(sheet.pages), "page") + ": " + files + " (modules of " + module +
      " mm or more)");
  say("Print at actual size (100 %), never \"fit to page\". Bag half: film with resin ribbon or laser "
      "polyester,");
  say("never direct thermal.");
  note_printer_faults(sheet);
  if (printed.before)
    show_note("this turnaround was printed before, on " + short_time(*printed.before) +
              ": destroy that sheet, so that no tag exists twice");
}

}  // namespace counterfoil
