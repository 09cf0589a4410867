#include <cmath>
#include <cstdlib>

#include "base/text.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/stocks.h"

namespace counterfoil {
namespace {

struct Options {
  std::string measure, draw;
};

std::string by(double width, double height, int digits = 6) {
  return decimal(width, digits) + " x " + decimal(height, digits);
}

// A pair on two pages of a roll is half a pair a page.
std::string pairs_of(const Stock& stock) {
  return stock.pairs_per_page() == 0 ? "1/2" : std::to_string(stock.pairs_per_page());
}

void list(const Context& context, const std::vector<Stock>& all) {
  Table table{{{"name", "STOCK"},
               {"page_mm", "PAGE mm"},
               {"label_mm", "LABEL mm"},
               {"pairs", "PAIRS A PAGE"},
               {"title", "WHAT IT IS"}},
              {}};
  for (const auto& stock : all)
    table.rows.push_back({stock.name, by(stock.page_width_mm, stock.page_height_mm),
                          by(stock.label_width_mm, stock.label_height_mm), pairs_of(stock), stock.title});
  show(context, table);
}

std::int64_t micrometres(double mm) { return std::llround(mm * 1000); }

void show_measured_json(const MeasuredStock& measured, const std::vector<std::string>& files) {
  const Stock& stock = measured.stock;
  const Survey& survey = measured.survey;
  Json::Array designs, remarks, drawn;
  for (const auto& design : measured.designs) {
    Json::Array modules;
    for (const auto& module : design.modules)
      modules.emplace_back(Json::Object{{"dpi", decimal(module.dots_per_inch)},
                                        {"dots", module.dots},
                                        {"module_um", micrometres(module.module_mm)}});
    designs.emplace_back(Json::Object{{"kind", design.kind},
                                      {"design", design.name.empty() ? Json() : Json(design.name)},
                                      {"modules", std::move(modules)}});
  }
  for (const auto& remark : survey.remarks) remarks.emplace_back(remark);
  for (const auto& file : files) drawn.emplace_back(file);
  show_json({{"name", stock.name},
             {"title", stock.title},
             {"labels", stock.labels_per_page()},
             {"pairs", pairs_of(stock)},
             {"single_labels", survey.single_labels},
             {"bag_um", Json::Array{micrometres(survey.bag_width_mm), micrometres(survey.bag_height_mm)}},
             {"box_um", Json::Array{micrometres(survey.box_width_mm), micrometres(survey.box_height_mm)}},
             {"left_over_right_um", micrometres(survey.left_over_right_mm)},
             {"left_over_bottom_um", micrometres(survey.left_over_bottom_mm)},
             {"designs", std::move(designs)},
             {"remarks", std::move(remarks)},
             {"files", std::move(drawn)}});
}

std::string to_text(Stock::Edge edge) {
  switch (edge) {
    case Stock::Edge::left:
      return "left edge";
    case Stock::Edge::top:
      return "head";
    case Stock::Edge::right:
      return "right edge";
    case Stock::Edge::bottom:
      return "foot";
  }
  std::abort();
}

std::string bars_of(const Stock& stock) {
  const auto bag = stock.mark_edge(false), box = stock.mark_edge(true);
  if (!bag || !box) return "none: no edge is free for them";
  if (*bag == *box)
    return "at the " + to_text(*bag) + " of both halves: turn one of them round, and they meet";
  return "at the " + to_text(*bag) + " of the bag half and the " + to_text(*box) + " of the box half";
}

void show_design(const StockDesign& design) {
  std::string line = "  " + design.kind + std::string(16 - design.kind.size(), ' ');
  if (design.name.empty()) {
    say(line + "no design has room");
    return;
  }
  line += design.name;
  const char* before = ": modules of ";
  for (const auto& module : design.modules) {
    line += before + (module.dots == 0 ? std::string("none") : decimal(module.module_mm, 3) + " mm") +
            " at " + decimal(module.dots_per_inch);
    before = ", ";
  }
  say(line + (design.modules.empty() ? "" : " dpi"));
}

void show_measured(const MeasuredStock& measured) {
  const Stock& stock = measured.stock;
  const Survey& survey = measured.survey;
  say("stock " + stock.name + " closes on its page of " + by(stock.page_width_mm, stock.page_height_mm) +
      " mm");
  say("  labels          " + std::to_string(stock.labels_per_page()) + " a page (" +
      std::to_string(stock.columns) + " across, " + std::to_string(stock.rows) + " down), each " +
      by(stock.label_width_mm, stock.label_height_mm) + " mm");
  say("  pairs           " + (stock.pairs_per_page() == 0 ? "1 on 2 pages" : pairs_of(stock) + " a page") +
      (survey.single_labels == 0
           ? ""
           : ", and " + counted(static_cast<std::uint64_t>(survey.single_labels), "label") +
                 " left to single tags"));
  say("  left over       " + decimal(survey.left_over_right_mm, 4) + " mm at the right edge, " +
      decimal(survey.left_over_bottom_mm, 4) + " mm at the bottom");
  say("  bag half        " + by(survey.bag_width_mm, survey.bag_height_mm, 4) + " mm to print on");
  say("  box half        " + by(survey.box_width_mm, survey.box_height_mm, 4) + " mm to print on");
  say("  match bars      " + bars_of(stock));
  for (const auto& design : measured.designs) show_design(design);
}

Result<ExitCode> run_measure(const Context& context, const Options& options) {
  auto measured = measure_stock(context.templates, options.measure);
  if (!measured) return measured.error();
  std::vector<std::string> files;
  if (!options.draw.empty()) {
    auto drawn = draw_outlines(measured->stock, options.draw, context.clock->now());
    if (!drawn) return drawn.error();
    files = std::move(*drawn);
  }
  if (context.json) {
    show_measured_json(*measured, files);
    return ExitCode::done;
  }
  show_measured(*measured);
  for (const auto& file : files) say("drawn to " + file);
  for (const auto& remark : measured->survey.remarks) show_note(remark);
  return ExitCode::done;
}

}  // namespace

Command stocks_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "stocks";
  command.summary = "List what tags can be printed on; measure and draw a description of your own.";
  command.examples = {"counterfoil stocks", "counterfoil stocks --measure shelf.json --draw shelf.pdf"};
  command.notes =
      "Print the drawing at actual size and lay it over the real sheet, against the light. The grammar of a\n"
      "description is in README.md of the templates' folder.";
  command.lists = true;
  command.options = {
      {"--measure", "STOCK",
       "a description in a .json file, or the name of a stock: does it close on the page?",
       &options->measure},
      {"--draw", "FILE", "with --measure: its outlines, as .pdf or .svg at actual size, or .png to look at",
       &options->draw}};
  command.run = [options](const Context& context) -> Result<ExitCode> {
    if (!options->measure.empty()) return run_measure(context, *options);
    if (!options->draw.empty()) return malformed("--draw goes with --measure");
    auto all = stocks(context.templates);
    if (!all) return all.error();
    list(context, *all);
    return ExitCode::done;
  };
  return command;
}

}  // namespace counterfoil
