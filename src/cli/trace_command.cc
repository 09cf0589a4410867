#include "cli/arguments.h"
#include "cli/command.h"
#include "cli/event_table.h"
#include "cli/output.h"
#include "workflow/evidence.h"
#include "workflow/trace.h"

namespace counterfoil {
namespace {

void show_trip(const Desk& desk, const Trace& trace) {
  const ValveTrip& trip = trace.trip;
  say("valve       " + trip.name() + (trip.voided ? "  VOIDED: " + trip.void_reason : ""));
  if (trip.number && !trip.serial.empty()) say("serial      " + trip.serial);
  if (!trip.turnaround.empty()) say("turnaround  " + trip.turnaround);
  const auto pocket = [](const char* heading, const std::optional<Pocket>& where) {
    if (where) say(heading + where->text() + (where->side ? ", " + std::string(to_text(*where->side)) : ""));
  };
  pocket("meant for   ", trip.meant_for);
  pocket("came from   ", trip.removed_from);
  pocket("went into   ", trip.installed_in);
  if (!trip.part.empty()) say("part        " + trip.part);
  say("now         " + std::string(to_text(trip.whereabouts)) +
      (trip.place.empty() ? "" : ": " + trip.place));
  say("");
  for (const auto& logged : trace.events) {
    const Event& event = logged.event;
    say("entry " + std::to_string(logged.ref.position) + "  " + short_time(event.at) + " (" +
        std::string(to_text(event.known)) + ")  " + describe(event));
    for (const auto& evidence : event.evidence) {
      const auto kept = kept_photo(desk.paths().photos, evidence);
      say("    photograph " + evidence.name + ", SHA-256 " + evidence.sha256.substr(0, 16) + "..., " +
          (kept ? "kept as " + *kept : "no copy kept here"));
    }
  }
  for (const auto& finding : trace.findings) {
    say("");
    say("FINDING: " + finding.what);
    say("  next: " + finding.next);
  }
}

Result<ExitCode> run(const std::string& typed, const Context& context) {
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto traces = trace_valve(*desk, typed);
  if (!traces) return traces.error();
  if (context.json || context.csv) {
    std::vector<LoggedEvent> events;
    for (const auto& trace : *traces) events.insert(events.end(), trace.events.begin(), trace.events.end());
    show(context, event_table(events));
    return ExitCode::done;
  }
  for (std::size_t i = 0; i < traces->size(); ++i) {
    if (i > 0) say("\n----");
    show_trip(*desk, (*traces)[i]);
  }
  return ExitCode::done;
}

}  // namespace

Command trace_command() {
  auto typed = std::make_shared<std::vector<std::string>>();
  Command command;
  command.name = "trace";
  command.summary = "Tell everything known of one valve, in order, with evidence.";
  command.examples = {"counterfoil trace K74Q 2B8X 61", "counterfoil trace --json K74Q2B8X61"};
  command.lists = true;
  command.positionals = {{"NUMBER...", "one number, or a serial", typed.get(), true}};
  command.run = [typed](const Context& context) {
    const auto words = joined_groups(*typed);
    return words.size() == 1 ? run(words.front(), context)
                             : Result<ExitCode>(malformed("one valve at a time, please",
                                                          "put a serial with spaces into quotes"));
  };
  return command;
}

}  // namespace counterfoil
