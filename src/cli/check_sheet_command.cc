#include <cmath>

#include "base/text.h"
#include "cli/arguments.h"
#include "cli/command.h"
#include "cli/output.h"
#include "cli/print_terms.h"
#include "cli/reading_terms.h"
#include "workflow/check_print.h"

namespace counterfoil {
namespace {

// A page of 600 dots per inch takes seconds, and is worth more of them than a photograph.
constexpr double kSecondsAPage = 30;
constexpr const char* kNotIso =
    "Not an ISO grade: the scanner is not calibrated. The parameters are those of ISO/IEC 15415.\n"
    "Words, sides and match bars were held against the drawing; what is smaller than part of a letter is not "
    "seen.";

struct Options {
  std::vector<std::string> items;
  PrintCheckOrder order;
  PrintOptions print;
  std::string sequence;
  int copies = 1;
};

Json rounded(double value, double steps) { return Json(std::round(value * steps) / steps); }

Json findings_json(const std::vector<PrintFinding>& findings) {
  Json::Array all;
  for (const auto& finding : findings)
    all.emplace_back(Json::Object{
        {"verdict", to_text(finding.verdict)}, {"what", finding.what}, {"advice", finding.advice}});
  return Json(std::move(all));
}

Json symbol_json(const std::optional<SymbolCheck>& check) {
  if (!check) return {};
  Json::Object parameters;
  for (const Parameter p : kParameters)
    parameters[std::string(to_text(p))] =
        (*check)[p]
            ? Json(Json::Object{{"value", rounded((*check)[p]->value, 1e4)}, {"grade", (*check)[p]->grade}})
            : Json();
  return Json(Json::Object{{"grade", check->grade},
                           {"weakest", check->grade < kBestGrade ? Json(to_text(check->weakest)) : Json()},
                           {"parameters", std::move(parameters)},
                           {"pixels_per_module", rounded(check->pixels_per_module, 100)},
                           {"coarse", check->coarse}});
}

Json tag_json(const CheckedTag& tag) {
  Json::Array outline;
  for (const auto& corner : tag.outline)
    outline.emplace_back(Json::Array{rounded(corner.x, 10), rounded(corner.y, 10)});
  const bool has_half = tag.payload && tag.payload->half != Half::label;
  return Json(Json::Object{{"text", tag.text},
                           {"number", tag.payload ? Json(tag.payload->number.text()) : Json()},
                           {"half", has_half ? Json(to_text(tag.payload->half)) : Json()},
                           {"label", tag.label},
                           {"read", tag.read},
                           {"verdict", to_text(tag.verdict)},
                           {"symbol", symbol_json(tag.check)},
                           {"stray_mm", tag.stray_mm ? Json(Json::Array{rounded(tag.stray_mm->x, 100),
                                                                        rounded(tag.stray_mm->y, 100)})
                                                     : Json()},
                           {"outline", std::move(outline)},
                           {"findings", findings_json(tag.findings)}});
}

Json geometry_json(const CheckedPage& page) {
  if (!page.geometry) return {};
  const auto& [dpi, scale_x, scale_y, turn, shear, offset] = *page.geometry;
  return Json(Json::Object{{"scan_dpi", rounded(dpi, 10)},
                           {"scale_x_percent", rounded(scale_x * 100, 100)},
                           {"scale_y_percent", rounded(scale_y * 100, 100)},
                           {"turn_deg", rounded(turn, 100)},
                           {"shear_deg", rounded(shear, 100)},
                           {"offset_x_mm", offset ? rounded(offset->x, 100) : Json()},
                           {"offset_y_mm", offset ? rounded(offset->y, 100) : Json()},
                           {"rms_mm", rounded(page.rms_mm, 1000)}});
}

void show_page_json(const CheckedPage& page) {
  Json::Array tags, dots;
  for (const auto& tag : page.tags) tags.push_back(tag_json(tag));
  for (const auto& line : page.missing_dots)
    dots.emplace_back(Json::Object{{"what", line.column ? "column" : "row"},
                                   {"at_mm", rounded(line.at_mm, 100)},
                                   {"width_mm", rounded(line.width_mm, 1000)},
                                   {"tags", line.tags}});
  show_json({{"file", page.file},
             {"file_page", page.file_page},
             {"sheet", page.page == 0 ? Json() : Json(page.page)},
             {"verdict", to_text(page.verdict)},
             {"iso_grade", false},
             {"page", geometry_json(page)},
             {"missing_dots", std::move(dots)},
             {"findings", findings_json(page.findings)},
             {"tags", std::move(tags)},
             {"marked", page.marked.empty() ? Json() : Json(page.marked)}});
}

std::string name_of(const CheckedTag& tag) {
  return tag.payload ? tag.payload->number.grouped() + "  " + half_words(*tag.payload) : tag.text;
}

void say_finding(const PrintFinding& finding) {
  say("    " + finding.what + (finding.advice.empty() ? "" : ": " + finding.advice));
}

std::string geometry_words(const PageGeometry& geometry) {
  std::string words = percent_text(geometry.scale_x) + " across, " + percent_text(geometry.scale_y) + " down";
  if (geometry.offset_mm) words += ", starts " + offset_text(*geometry.offset_mm);
  return words + " (scan of " + dots_text(geometry.dots_per_inch) + " dpi)";
}

void show_page(const CheckedPage& page, int sheets) {
  std::string heading = page.file;
  if (page.file_page > 1) heading += ", page " + std::to_string(page.file_page);
  if (page.page > 0) heading += "  sheet " + std::to_string(page.page) + " of " + std::to_string(sheets);
  say(heading + "  " + std::string(to_text(page.verdict)));
  if (page.geometry) say("  size and place: " + geometry_words(*page.geometry));
  for (const auto& finding : page.findings) say_finding(finding);
  bool coarse = false;
  for (const auto& tag : page.tags) {
    std::string line = "  label " + std::to_string(tag.label) + "  " + name_of(tag) + "  " +
                       std::string(to_text(tag.verdict));
    if (tag.check) line += " (" + std::to_string(tag.check->grade) + " of 4)";
    say(line);
    for (const auto& finding : tag.findings) say_finding(finding);
    coarse = coarse || (tag.check && tag.check->coarse);
  }
  if (coarse)
    say("  some modules have fewer than 10 pixels: modulation, non-uniformity and fixed patterns were not "
        "judged; "
        "scan at 600 dpi");
  if (!page.marked.empty()) say("  marked: " + page.marked);
}

Result<ExitCode> run(Options& options, const Context& context) {
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto [scans, numbers] = photos_and_numbers(options.items);
  PrintCheckOrder& order = options.order;
  order.scans = std::move(scans);
  order.print.numbers = joined_groups(numbers);
  order.print.terms = options.print.terms(context, "sheet.pdf");
  order.print.terms.order = options.sequence;
  order.print.terms.copies = options.copies;
  order.reading.clock = context.steady_seconds;
  order.reading.seconds_a_picture = kSecondsAPage;
  auto check = check_print(*desk, order);
  if (!check) return check.error();
  for (const auto& page : check->pages) context.json ? show_page_json(page) : show_page(page, check->sheets);
  if (!context.json) {
    std::string missing;
    for (const int sheet : check->not_scanned)
      missing += (missing.empty() ? "" : ", ") + std::to_string(sheet);
    if (!missing.empty()) show_note("not scanned: sheet " + missing + " of " + std::to_string(check->sheets));
    say(kNotIso);
  }
  return check->verdict == PrintVerdict::reprint ? ExitCode::no : ExitCode::done;
}

}  // namespace

Command check_sheet_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "check-sheet";
  command.summary = "Check a scan of a printed sheet: is it good, usable, or to be printed again?";
  command.examples = {"counterfoil check-sheet scan.png --turnaround TA26 --marked marked.png",
                      "counterfoil check-sheet scans.pdf --turnaround TA26 --stock letter-2x3 --json",
                      "counterfoil check-sheet scan.png --turnaround TA26 --page 2 --scan-dpi 600"};
  command.notes =
      "Give the same turnaround or numbers, --stock, --dpi and --printer as to `counterfoil print`; which "
      "labels of a\n"
      "stack's top sheet were left is known from the log. Every tag has to be there, in its place, beside "
      "its other\n"
      "half and readable. Words, sides and match bars are held against the drawing: one other letter is "
      "found, a wrong\n"
      "side or number is always reprint; from 150 dpi on, 300 is better. Each symbol is judged by the "
      "parameters of\n"
      "ISO/IEC 15415 (modules need 10 pixels: scan at 600 dpi, in grey, the whole page). The page's size, "
      "its place,\n"
      "missing dots and the stock are judged too. Limits of good, usable and reprint are counterfoil's own: "
      "grade 3 or\n"
      "4, grade 2, less; scale within 0.3 %, 1 %; place within 1 mm, 2 mm. Exit code 1 for reprint. Not an "
      "ISO grade:\n"
      "a scanner is not calibrated.";
  command.positionals = {{"ITEM...", "scans; and numbers, instead of a turnaround", &options->items, true}};
  command.options = {
      {"--turnaround", "NAME", "all its pairs that are not voided", &options->order.print.turnaround},
      {"--page", "K", "the sheet that the scans show (whichever they show)", &options->order.page},
      {"--scan-dpi", "N", "dots per inch of the scan (the nearest usual one)", &options->order.dots_per_inch},
      {"--marked", "FILE", "write the scan with the places marked; ends in .png", &options->order.marked}};
  command.options.push_back(
      {"--order", "ORDER", "sheet-by-sheet or cut-and-stack, as it was printed", &options->sequence});
  command.options.push_back(
      {"--copies", "N", "of each identification label, as printed (1)", &options->copies});
  for (auto& option : options->print.sheet_options()) command.options.push_back(std::move(option));
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
