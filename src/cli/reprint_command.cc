#include "cli/arguments.h"
#include "cli/print_terms.h"

namespace counterfoil {
namespace {

constexpr const char* kUsualFile = "reprint.pdf";

struct Options {
  ReprintOrder order;
  PrintOptions print;
  std::string half;
};

}  // namespace

Command reprint_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "reprint";
  command.summary = "Print a half again: same number, next copy.";
  command.examples = {"counterfoil reprint K74Q 2B8X 61 --half bag --reason \"washed out\" --by Marek",
                      "counterfoil reprint K74Q 2B8X 61 --reason torn --design small --second-language cs"};
  command.notes =
      "The older copy is told apart from now on when it is logged or matched; destroy it if you find it.";
  command.positionals = {{"NUMBER...", "numbers, as on the tags", &options->order.numbers, true}};
  command.options = {{"--half", "HALF", "bag or box; both when left out", &options->half},
                     {"--reason", "TEXT", "why; it stays in the record", &options->order.reason},
                     {"--by", "NAME", "who prints", &options->order.by}};
  for (auto& option : options->print.options(kUsualFile)) command.options.push_back(std::move(option));
  command.run = [options](const Context& context) -> Result<ExitCode> {
    if (!options->half.empty()) {
      auto half = parse_half(options->half);
      if (!half || *half == Half::label)
        return malformed("a half is bag or box, not \"" + options->half + "\"",
                         "without --half both are printed again");
      options->order.half = *half;
    }
    auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
    if (!desk) return desk.error();
    options->order.terms = options->print.terms(context, kUsualFile);
    options->order.numbers = joined_groups(options->order.numbers);
    auto printed = reprint_halves(*desk, options->order);
    if (!printed) return printed.error();
    show_sheet(context, *printed);
    return ExitCode::done;
  };
  return command;
}

}  // namespace counterfoil
