#include "cli/arguments.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/issue.h"

namespace counterfoil {
namespace {

Result<ExitCode> run(VoidOrder& order, const Context& context) {
  order.numbers = joined_groups(order.numbers);
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto numbers = void_numbers(*desk, order);
  if (!numbers) return numbers.error();
  for (const auto& number : *numbers) {
    if (context.json)
      show_json({{"number", number.text()}, {"voided", true}, {"reason", order.reason}});
    else
      say(number.grouped() + " voided: " + order.reason +
          ". Destroy both halves; the number is never used again.");
  }
  return ExitCode::done;
}

}  // namespace

Command void_command() {
  auto order = std::make_shared<VoidOrder>();
  Command command;
  command.name = "void";
  command.summary = "Withdraw numbers for ever, with a reason.";
  command.examples = {"counterfoil void K74Q 2B8X 61 --reason \"both halves torn\" --by Ása"};
  command.positionals = {{"NUMBER...", "numbers to withdraw, as on the tags", &order->numbers, true}};
  command.options = {
      {"--reason", "TEXT", "why; it stays in the record", &order->reason},
      {"--by", "NAME", "who withdraws them", &order->by},
  };
  command.run = [order](const Context& context) { return run(*order, context); };
  return command;
}

}  // namespace counterfoil
