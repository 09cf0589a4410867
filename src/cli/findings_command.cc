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

std::string entries_of(const Finding& finding) {
  std::string out;
  for (const auto& ref : finding.events) out += (out.empty() ? "" : " ") + std::to_string(ref.position);
  return out;
}

Result<ExitCode> run(const Options& options, const Context& context) {
  if (options.transit_days < 0) return malformed("--transit-days cannot be negative");
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto found = findings(*desk, options.turnaround, options.transit_days);
  if (!found) return found.error();
  const auto outcome = found->empty() ? ExitCode::done : ExitCode::no;
  if (context.json || context.csv) {
    Table table{
        {{"kind", ""}, {"subject", ""}, {"what", ""}, {"next", ""}, {"entries", ""}, {"turnaround", ""}}, {}};
    for (const auto& finding : *found) {
      Json::Array entries;
      for (const auto& ref : finding.events) entries.emplace_back(ref.position);
      table.rows.push_back({to_text(finding.kind), finding.subject, finding.what, finding.next,
                            context.json ? Json(std::move(entries)) : Json(entries_of(finding)),
                            finding.turnaround});
    }
    show(context, table);
    return outcome;
  }
  for (std::size_t i = 0; i < found->size(); ++i) {
    const Finding& finding = (*found)[i];
    say(std::to_string(i + 1) + ". " + finding.subject + ": " + std::string(to_text(finding.kind)));
    say("   " + finding.what);
    say("   next: " + finding.next);
    say("   entries: " + entries_of(finding));
  }
  if (!found->empty()) say("");
  say(found->empty() ? "No findings: nothing in the record contradicts itself or is missing."
                     : counted(found->size(), "finding") + ".");
  return outcome;
}

}  // namespace

Command findings_command() {
  auto options = std::make_shared<Options>();
  Command command;
  command.name = "findings";
  command.summary = "List every contradiction and hole, with the entries that make it and what to do next.";
  command.examples = {"counterfoil findings --turnaround TA26"};
  command.notes = "Exit code 1 when there is one.";
  command.lists = true;
  command.options = {
      {"--turnaround", "NAME", "only this turnaround's", &options->turnaround},
      {"--transit-days", "N", "days in transit after which nobody's receiving it is a finding (7)",
       &options->transit_days},
  };
  command.run = [options](const Context& context) { return run(*options, context); };
  return command;
}

}  // namespace counterfoil
