#include "cli/arguments.h"
#include "cli/print_terms.h"

namespace counterfoil {
namespace {

constexpr const char* kUsualFile = "tags.pdf";

struct Options {
  PrintOrder order;
  PrintOptions print;
  std::string sequence;
  int copies = 1;
};

}  // namespace

Command print_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "print";
  command.summary = "Print tag pairs, bag half and box half side by side.";
  command.examples = {"counterfoil print --turnaround TA26 --out tags.pdf",
                      "counterfoil print --turnaround TA26 --stock letter-2x3 --dpi 600",
                      "counterfoil print --turnaround TA26 --stack \"drawer 2\" --spoiled 7,9-10",
                      "counterfoil print --turnaround TA26 --to office-laser",
                      "counterfoil print K74Q 2B8X 61 --stock roll-4x6in --dpi 203.2 --out tag.png"};
  command.notes =
      "Cut along the dashed line; the bars across it show later which halves belong together.\n"
      "Labels are counted from 1, row by row from the top left. A pair lies on one sheet, on two free\n"
      "labels side by side. cut-and-stack orders the pairs so that piled and cut sheets give stacks in\n"
      "sequence, each going on where the one before it ends.";
  command.positionals = {{"NUMBER...", "these numbers, instead of a turnaround", &options->order.numbers}};
  command.options = {
      {"--turnaround", "NAME", "all its pairs that are not voided", &options->order.turnaround},
      {"--order", "ORDER", "sheet-by-sheet, or cut-and-stack: pile the sheets, cut the pile (sheet-by-sheet)",
       &options->sequence},
      {"--copies", "N", "of each identification label; a pair is printed once (1)", &options->copies},
      {"--by", "NAME", "who prints", &options->order.by}};
  for (auto& option : options->print.options(kUsualFile)) command.options.push_back(std::move(option));
  command.run = [options](const Context& context) -> Result<ExitCode> {
    auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
    if (!desk) return desk.error();
    options->order.terms = options->print.terms(context, kUsualFile);
    options->order.terms.order = options->sequence;
    options->order.terms.copies = options->copies;
    options->order.numbers = joined_groups(options->order.numbers);
    auto printed = print_pairs(*desk, options->order);
    if (!printed) return printed.error();
    show_sheet(context, *printed);
    return ExitCode::done;
  };
  return command;
}

}  // namespace counterfoil
