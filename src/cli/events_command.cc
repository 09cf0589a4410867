#include "cli/command.h"
#include "cli/event_table.h"
#include "cli/output.h"
#include "workflow/issue.h"

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
    auto events = desk->all_events();
    if (!events) return events.error();
    const auto wanted = known_turnaround(replay(*events), *turnaround);
    if (!wanted) return wanted.error();
    if (!wanted->empty())
      std::erase_if(*events, [&](const LoggedEvent& logged) { return logged.event.turnaround != *wanted; });
    show(context, event_table(*events));
    return ExitCode::done;
  };
  return command;
}

}  // namespace counterfoil
