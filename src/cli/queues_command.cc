#include "cli/command.h"
#include "cli/output.h"
#include "workflow/print.h"

namespace counterfoil {

Command queues_command() {
  Command command;
  command.name = "queues";
  command.summary = "List the print queues that a sheet can be sent to.";
  command.examples = {"counterfoil queues"};
  command.notes =
      "Those of this computer's print server. A printer on the network needs none: its own address,\n"
      "such as ipp://192.168.1.20/ipp/print, can be named with --to.";
  command.lists = true;
  command.run = [](const Context& context) -> Result<ExitCode> {
    auto all = queues();
    if (!all) return all.error();
    Table table{{{"name", "QUEUE"}, {"about", "WHAT AND WHERE"}}, {}};
    for (const auto& queue : *all) table.rows.push_back({queue.name, queue.about});
    show(context, table);
    return ExitCode::done;
  };
  return command;
}

}  // namespace counterfoil
