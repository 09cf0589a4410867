#include "base/text.h"
#include "cli/command.h"
#include "cli/output.h"
#include "workflow/trace.h"

namespace counterfoil {
namespace {

struct Options {
  std::string turnaround;
  int transit_days = kTransitDays;
};

Result<ExitCode> run(const Options& options, const Context& context) {
  if (options.transit_days < 0) return malformed("--transit-days cannot be negative");
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto found = outstanding(*desk, options.turnaround, options.transit_days);
  if (!found) return found.error();
  Table table{{{"number", "NUMBER"},
               {"serial", "SERIAL"},
               {"from", "CAME FROM"},
               {"now", "NOW"},
               {"place", "PLACE"},
               {"since", "SINCE"},
               {"due", "DUE"},
               {"overdue", "OVERDUE"},
               {"turnaround", ""}},
              {}};
  const bool plain = context.json || context.csv;
  for (const auto& [trip, overdue] : found->lines) {
    const std::string number = !trip.number ? "" : plain ? trip.number->text() : trip.number->grouped();
    const auto& from = trip.removed_from ? trip.removed_from : trip.meant_for;
    table.rows.push_back({number, trip.serial, from ? from->text() : std::string(), to_text(trip.whereabouts),
                          trip.place, trip.since ? short_time(*trip.since) : std::string(), trip.due, overdue,
                          trip.turnaround});
  }
  show(context, table);
  if (!plain) {
    if (!found->lines.empty()) say("");
    say(counted(found->lines.size(), "valve") + " under way; besides: " + std::to_string(found->installed) +
        " installed, " + std::to_string(found->destroyed) + " destroyed, " +
        std::to_string(found->untracked) + " not tracked, " + std::to_string(found->unused) +
        " with only a tag issued, " + std::to_string(found->voided) + " voided.");
  }
  return ExitCode::done;
}

}  // namespace

Command outstanding_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "outstanding";
  command.summary = "Tell where every valve under way is, and what is overdue.";
  command.examples = {"counterfoil outstanding --turnaround TA26",
                      "counterfoil outstanding --csv > chase.csv"};
  command.lists = true;
  command.options = {
      {"--turnaround", "NAME", "only this turnaround's", &options->turnaround},
      {"--transit-days", "N", "days in transit after which nobody's receiving it is overdue (7)",
       &options->transit_days},
  };
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
