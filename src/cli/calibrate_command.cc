#include <cmath>
#include <cstdio>
#include <filesystem>
#include <limits>

#include "base/file.h"
#include "base/text.h"
#include "cli/command.h"
#include "cli/output.h"
#include "cli/print_terms.h"
#include "workflow/calibrate.h"
#include "workflow/stocks.h"

namespace counterfoil {
namespace {

struct Options {
  std::vector<std::string> pictures;
  std::string sheet, write, name;
  std::string stock, printer, paper, left, top, across, down;
  double dots_per_inch = std::numeric_limits<double>::quiet_NaN();
  double scan_dpi = std::numeric_limits<double>::quiet_NaN();
};

std::optional<double> given(double value) { return std::isnan(value) ? std::nullopt : std::optional(value); }

template <typename... Values>
std::string line(const char* format, Values... values) {
  char text[240];
  std::snprintf(text, sizeof text, format, values...);
  return text;
}

// Neighbours as "211-213".
std::string ranges(const std::vector<int>& columns) {
  std::string text;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    std::size_t last = i;
    while (last + 1 < columns.size() && columns[last + 1] == columns[last] + 1) ++last;
    text += (text.empty() ? "" : ", ") + std::to_string(columns[i]);
    if (last > i) text += "-" + std::to_string(columns[last]);
    i = last;
  }
  return text;
}

void show_calibration(const Context& context, const Calibration& found) {
  const PrinterProfile& p = found.profile;
  if (context.json) {
    Json::Array columns(p.dead_columns.begin(), p.dead_columns.end());
    const auto whole = [](double value) { return Json(std::int64_t{std::llround(value)}); };
    const auto rounded = [](double value, double step) { return Json(std::round(value / step) * step); };
    show_json({{"dots_per_inch", p.dots_per_inch},
               {"offset_x_um", whole(p.offset_x_mm * 1000)},
               {"offset_y_um", whole(p.offset_y_mm * 1000)},
               {"scale_x_ppm", whole(p.scale_x * 1e6)},
               {"scale_y_ppm", whole(p.scale_y * 1e6)},
               {"turn_deg", rounded(p.turn_deg, 1e-4)},
               {"shear_deg", rounded(p.shear_deg, 1e-4)},
               {"dead_columns", found.dead_columns_known ? Json(std::move(columns)) : Json()},
               {"corrected", found.corrected},
               {"marks", found.marks},
               {"marks_left_out", found.marks_left_out},
               {"marks_missing", found.marks_missing},
               {"rms_um", whole(found.rms_mm * 1000)},
               {"rests_on", p.rests_on}});
    return;
  }
  say(line("Calibration sheet of %g x %g mm for %g dots per inch%s", found.page_width_mm,
           found.page_height_mm, p.dots_per_inch,
           found.corrected ? ", printed with a correction: this is what is left" : ""));
  say(line("  offset  %.2f mm to the %s, %.2f mm %s", std::abs(p.offset_x_mm),
           p.offset_x_mm < 0 ? "left" : "right", std::abs(p.offset_y_mm), p.offset_y_mm < 0 ? "up" : "down"));
  say(line("  scale   %.2f %% across, %.2f %% down", p.scale_x * 100, p.scale_y * 100));
  say(line("  turn    %.2f degrees %s, shear %.2f degrees", std::abs(p.turn_deg),
           p.turn_deg < 0 ? "anticlockwise" : "clockwise", p.shear_deg));
  if (found.dead_columns_known)
    say("  dead dot columns  " + (p.dead_columns.empty() ? std::string("none") : ranges(p.dead_columns)));
  if (found.marks > 0) {
    say(line("  by %d marks, %.3f mm from a straight map; sure to %.3f mm and %.3f %% by their scatter",
             found.marks, found.rms_mm, found.offset_error_mm, found.scale_error * 100));
    if (found.marks_left_out + found.marks_missing > 0)
      say(line("  %d marks did not show and %d did not fit in", found.marks_missing, found.marks_left_out));
    if (found.offset_spread_mm > 0 || found.scale_spread > 0)
      say(line("  the pictures are up to %.3f mm and %.3f %% apart", found.offset_spread_mm,
               found.scale_spread * 100));
  }
  say("  rests on " + p.rests_on);
}

Result<RuleMeasures> rule_of(const Options& options) {
  RuleMeasures rule;
  const auto lengths = [](const std::string& typed, const char* option, std::size_t most) {
    return typed.empty() ? Result<std::vector<double>>(std::vector<double>{})
                         : parse_lengths(typed, option, most);
  };
  auto left = lengths(options.left, "--left", 2);
  if (!left) return left.error();
  auto top = lengths(options.top, "--top", 2);
  if (!top) return top.error();
  auto across = lengths(options.across, "--across", 1);
  if (!across) return across.error();
  auto down = lengths(options.down, "--down", 1);
  if (!down) return down.error();
  rule.left = *std::move(left);
  rule.top = *std::move(top);
  if (!across->empty()) rule.across = across->front();
  if (!down->empty()) rule.down = down->front();
  return rule;
}

Result<std::optional<CalibrationOrder::PaperSize>> paper_of(const std::string& typed) {
  if (typed.empty()) return std::optional<CalibrationOrder::PaperSize>();
  double width = 0, height = 0;
  int used = 0;
  if (std::sscanf(typed.c_str(), "%lfx%lf%n", &width, &height, &used) != 2 ||
      static_cast<std::size_t>(used) != typed.size())
    return malformed("--paper is width x height in mm, not \"" + typed + "\"", "write it like 210.2x296.9");
  return std::optional(CalibrationOrder::PaperSize{width, height});
}

Result<ExitCode> run(const Options& options, const Context& context) {
  CalibrationTerms terms;
  terms.templates = context.templates;
  terms.stock = options.stock;
  terms.dots_per_inch = given(options.dots_per_inch);
  const Moment now = context.clock->now();
  if (!options.sheet.empty()) {
    if (!options.pictures.empty() || !options.write.empty())
      return malformed(
          "--sheet draws what is printed first; pictures of it are measured afterwards, without --sheet");
    terms.printer = options.printer;
    auto sheet = print_calibration(terms, options.sheet, now);
    if (!sheet) return sheet.error();
    if (context.json) {
      show_json({{"files", Json::Array{sheet->files.front()}}});
    } else {
      auto dots = dots_of(terms.dots_per_inch, terms.printer);
      if (!dots) return dots.error();
      say("calibration sheet for " + decimal(*dots) + " dots per inch: " + sheet->files.front());
      say("Print it at actual size (100 %), on the stock itself. Then scan all of it with something dark "
          "behind it:");
      say("counterfoil calibrate SCAN.png --write my-printer.json");
    }
    return ExitCode::done;
  }
  if (!options.printer.empty()) return malformed("--printer goes with --sheet here");
  CalibrationOrder order;
  order.pictures = options.pictures;
  order.scan_dpi = given(options.scan_dpi);
  order.terms = terms;
  auto paper = paper_of(options.paper);
  if (!paper) return paper.error();
  order.paper = *paper;
  auto rule = rule_of(options);
  if (!rule) return rule.error();
  order.rule = *std::move(rule);
  order.name = options.name.empty() ? std::filesystem::path(options.write).stem().string() : options.name;
  auto found = calibrate(order, now);
  if (!found) return found.error();
  show_calibration(context, *found);
  if (options.write.empty()) return ExitCode::done;
  if (found->corrected)
    return refused("a sheet that was printed with a correction shows what is left and makes no profile",
                   "draw the sheet without --printer, print and scan that one");
  if (auto done = write_file(options.write, to_json(found->profile)); !done) return done.error();
  if (!context.json) say("written to " + options.write + "; print with --printer " + quoted(options.write));
  return ExitCode::done;
}

}  // namespace

Command calibrate_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "calibrate";
  command.summary = "Measure what a printer does to a page, so that printing can correct it.";
  command.examples = {"counterfoil calibrate --sheet sheet.pdf --stock a4-2x4 --dpi 600",
                      "counterfoil calibrate scan.png --scan-dpi 600 --write my-printer.json",
                      "counterfoil calibrate --stock a4-2x4 --dpi 600 --left 13.2,13.5 --top 11.4 --across "
                      "185.2 --down 256.1 "
                      "--write my-printer.json"};
  command.notes =
      "Print the sheet, scan all of it flat with something dark behind it (open the lid, or a black sheet), "
      "and\n"
      "measure the scan. The paper's edges tell offset and turn; lengths are by the scan's dots per inch, or "
      "for a\n"
      "photograph by the paper's size. Two scans, one a quarter turn round, are better than one. Without a "
      "scanner,\n"
      "measure the two lines with a steel rule. --sheet with --printer draws a corrected sheet: measured, it "
      "shows\n"
      "what is left.";
  command.positionals = {{"PICTURE...", "scans or photographs of the printed sheet", &options->pictures}};
  command.options = {
      {"--sheet", "FILE", "draw the sheet to print; ends in .pdf, .png or .svg", &options->sheet},
      {"--stock", "NAME",
       "what the sheet is for; `counterfoil stocks` lists them (" + std::string(kUsualStock) + ")",
       &options->stock},
      {"--dpi", "N",
       "the printer's dots per inch: 203.2, 300, 304.8, 600 (300 with --sheet; a picture says it; else it is "
       "needed)",
       &options->dots_per_inch},
      printer_option(&options->printer),
      {"--scan-dpi", "N", "the scan's dots per inch, when its file says none or is wrong",
       &options->scan_dpi},
      {"--paper", "WxH", "the paper's size in mm as measured, for photographs", &options->paper},
      {"--left", "MM", "by rule: paper's left edge to the upright line; MM,MM at its upper and lower end",
       &options->left},
      {"--top", "MM", "by rule: paper's upper edge to the level line; MM,MM at its left and right end",
       &options->top},
      {"--across", "MM", "by rule: length of the level line", &options->across},
      {"--down", "MM", "by rule: length of the upright line", &options->down},
      {"--name", "TEXT", "what people call the printer", &options->name},
      {"--write", "FILE", "where the profile goes", &options->write},
  };
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
