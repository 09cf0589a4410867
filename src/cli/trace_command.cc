#include "cli/arguments.h"
#include "cli/command.h"
#include "cli/event_table.h"
#include "cli/output.h"
#include "workflow/candidates.h"
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

// Which numbers are meant by one with '?': a person chooses, so the answer to what was asked is no.
Result<ExitCode> show_near(const std::vector<NearNumber>& near, const Context& context) {
  const bool plain = context.json || context.csv;
  Table table{{{"number", "NUMBER"},
               {"unit", "UNIT"},
               {"pocket", "POCKET"},
               {"side", "SIDE"},
               {"turnaround", "TURNAROUND"},
               {"now", "NOW"},
               {"place", "PLACE"},
               {"retired", "RETIRED"},
               {"fits", "FITS"}},
              {}};
  for (const auto& [trip, as_typed, retired] : near) {
    if (!plain && table.rows.size() == kMostCandidates) break;
    const Pocket pocket = trip.removed_from ? *trip.removed_from : trip.meant_for.value_or(Pocket{});
    table.rows.push_back({plain ? trip.number->text() : trip.number->grouped(), pocket.unit, pocket.name,
                          pocket.side ? std::string(to_text(*pocket.side)) : std::string(), trip.turnaround,
                          to_text(trip.whereabouts), trip.place, retired,
                          as_typed ? "as typed" : "with one slip besides"});
  }
  show(context, table);
  if (near.size() > table.rows.size())
    say("... and " + std::to_string(near.size() - table.rows.size()) +
        " more: read more characters of the number");
  if (!plain)
    show_note("likeliest first; hold them against the tag, then `counterfoil trace` with the right one");
  return ExitCode::no;
}

Result<ExitCode> run(const std::string& typed, const Context& context) {
  auto desk = Desk::open(context.ledger, context.passphrase, *context.clock);
  if (!desk) return desk.error();
  auto traced = trace_valve(*desk, typed);
  if (!traced) return traced.error();
  if (!traced->near.empty()) return show_near(traced->near, context);
  const std::vector<Trace>& traces = traced->traces;
  if (context.json || context.csv) {
    std::vector<LoggedEvent> events;
    for (const auto& trace : traces) events.insert(events.end(), trace.events.begin(), trace.events.end());
    show(context, event_table(events));
    return ExitCode::done;
  }
  for (std::size_t i = 0; i < traces.size(); ++i) {
    if (i > 0) say("\n----");
    show_trip(*desk, traces[i]);
  }
  return ExitCode::done;
}

}  // namespace

Command trace_command() {
  auto typed = std::make_shared<std::vector<std::string>>();
  Command command;
  command.name = "trace";
  command.summary = "Tell everything known of one valve, in order, with evidence.";
  command.examples = {"counterfoil trace K74Q 2B8X 61", "counterfoil trace --json K74Q2B8X61",
                      "counterfoil trace \"K74Q ?B8X 61\""};
  command.notes =
      "A ? stands for a character that cannot be read: the numbers on record that can be meant are listed,\n"
      "likeliest first, and the exit code is 1. Quote it: a shell takes ? for a pattern of file names.";
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
