#include "base/text.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/verify.h"

namespace counterfoil {
namespace {

Result<ExitCode> run(const Context& context) {
  auto report = verify_ledger(context.ledger);
  if (!report) return report.error();
  if (context.json) {
    Json::Array faults;
    for (const auto& fault : report->faults)
      faults.emplace_back(
          Json::Object{{"entry", fault.position}, {"log", fault.origin}, {"what", fault.what}});
    show_json({{"entries", report->entries},
               {"checkpoints", report->checkpoints},
               {"root", to_hex(bytes_of(report->head.root))},
               {"faults", std::move(faults)}});
  } else {
    for (const auto& fault : report->faults)
      say("entry " + std::to_string(fault.position) + " of " + fault.origin + ": " + fault.what);
    say(counted(report->entries, "entry") + " and " + counted(report->checkpoints, "checkpoint") +
        " recomputed" + (report->faults.empty() ? ": all holds." : "."));
    if (report->faults.empty())
      say("root " + to_hex(bytes_of(report->head.root)));
    else
      say("THE LEDGER DOES NOT HOLD from entry " + std::to_string(report->faults.front().position) +
          " on. Keep this file as it is, and work on from a copy that verifies.");
  }
  return report->faults.empty() ? ExitCode::done : ExitCode::no;
}

}  // namespace

Command verify_command() {
  Command command;
  command.name = "verify";
  command.summary = "Recompute the whole ledger and name the first bad entry.";
  command.examples = {"counterfoil verify", "counterfoil verify --ledger hollow-creek --json"};
  command.notes = "Exit code 1 when anything does not hold.";
  command.run = run;
  return command;
}

}  // namespace counterfoil
