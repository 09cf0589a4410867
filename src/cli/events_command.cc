#include "cli/command.h"
#include "cli/event_table.h"
#include "cli/output.h"
#include "workflow/desk.h"

namespace counterfoil {

Command events_command() {
  auto turnaround = std::make_shared<std::string>();
  Command command;
  command.name = "events";
  command.summary = "List every entry of the ledger in order.";
  command.examples = {"counterfoil events --turnaround TA26 --csv > TA26.csv"};
  command.lists = true;
  command.options = {{"--turnaround", "NAME", "only those of this turnaround", turnaround.get()}};
  command.run = [turnaround](const Context& context) -> Result<ExitCode> {
    auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
    if (!desk) return desk.error();
    auto events = turnaround->empty() ? desk->all_events() : desk->events_with({"turnaround:" + *turnaround});
    if (!events) return events.error();
    show(context, event_table(*events));
    return ExitCode::done;
  };
  return command;
}

}  // namespace counterfoil
