#include <cstdio>

#include "cli/command.h"
#include "cli/output.h"
#include "workflow/print.h"

namespace counterfoil {
namespace {

std::string millimetres(double width, double height) {
  char text[64];
  std::snprintf(text, sizeof text, "%g x %g", width, height);
  return text;
}

}  // namespace

Command stocks_command() {
  Command command;
  command.name = "stocks";
  command.summary = "List what tags can be printed on.";
  command.examples = {"counterfoil stocks"};
  command.lists = true;
  command.run = [](const Context& context) -> Result<ExitCode> {
    auto all = stocks(context.templates);
    if (!all) return all.error();
    Table table{{{"name", "STOCK"},
                 {"page_mm", "PAGE mm"},
                 {"label_mm", "LABEL mm"},
                 {"pairs", "PAIRS A PAGE"},
                 {"title", "WHAT IT IS"}},
                {}};
    for (const auto& stock : *all)
      table.rows.push_back({stock.name, millimetres(stock.page_width_mm, stock.page_height_mm),
                            millimetres(stock.label_width_mm, stock.label_height_mm), stock.pairs_per_page(),
                            stock.title});
    show(context, table);
    return ExitCode::done;
  };
  return command;
}

}  // namespace counterfoil
