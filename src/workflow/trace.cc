#include "workflow/trace.h"

#include <algorithm>

#include "base/text.h"
#include "workflow/candidates.h"
#include "workflow/issue.h"

namespace counterfoil {
namespace {

constexpr std::int64_t kSecondsPerDay = 86400;

std::string overdue_words(const ValveTrip& trip, const Moment& today, int transit_days) {
  if (!trip.due.empty() && trip.due < date_text(today)) return "due back on " + trip.due;
  if (trip.whereabouts == Whereabouts::in_transit && trip.since) {
    const auto days = (to_seconds(today) - to_seconds(*trip.since)) / kSecondsPerDay;
    if (days > transit_days)
      return "in transit for " + counted(static_cast<std::uint64_t>(days), "day") +
             ", nobody has received it";
  }
  return {};
}

// A finding of the valve itself, or of a pocket that it was in.
bool is_of(const Finding& finding, const ValveTrip& trip) {
  if (finding.subject == trip.name()) return true;
  for (const auto& pocket : {trip.meant_for, trip.removed_from, trip.installed_in})
    if (pocket && pocket->text() == finding.subject) return true;
  return false;
}

bool under_way(Whereabouts w) {
  return w != Whereabouts::tag_only && w != Whereabouts::installed && w != Whereabouts::destroyed &&
         w != Whereabouts::untracked;
}

}  // namespace

Result<Traced> trace_valve(const Desk& desk, const std::string& typed) {
  auto record = desk.record();
  if (!record) return record.error();
  std::vector<const ValveTrip*> trips;
  const auto number = parse_number(*record, typed);
  if (number) {
    if (const ValveTrip* trip = record->find(*number)) trips.push_back(trip);
  }
  if (trips.empty()) trips = record->with_serial(std::string(trimmed(typed)));
  Traced traced;
  if (trips.empty() && !number && SmudgedNumber(typed).has_gaps()) {
    for (const auto& [trip, fit, retired] : candidates(*record, typed))
      traced.near.push_back({*trip, fit == Fit::as_typed, retired});
    if (!traced.near.empty()) return traced;
  }
  if (trips.empty()) {
    if (!number)
      return malformed("no valve with the serial \"" + std::string(trimmed(typed)) + "\" is known, and " +
                           number.error().message,
                       number.error().hint);
    return refused("nothing is known of number " + number->grouped(),
                   "its check characters hold; it may be of another desk, or not issued yet");
  }
  const auto all = record->findings(desk.now(), kTransitDays);
  for (const ValveTrip* trip : trips) {
    Trace trace;
    trace.trip = *trip;
    for (const auto& ref : trip->history)
      if (const LoggedEvent* logged = record->event(ref)) trace.events.push_back(*logged);
    for (const auto& finding : all) {
      if (is_of(finding, *trip)) trace.findings.push_back(finding);
    }
    traced.traces.push_back(std::move(trace));
  }
  return traced;
}

Result<Outstanding> outstanding(const Desk& desk, const std::string& turnaround, int transit_days) {
  auto record = desk.record();
  if (!record) return record.error();
  const auto wanted = known_turnaround(*record, turnaround);
  if (!wanted) return wanted.error();
  Outstanding out;
  for (const auto& [key, trip] : record->trips()) {
    if (!wanted->empty() && trip.turnaround != *wanted) continue;
    if (trip.voided && !under_way(trip.whereabouts)) {
      ++out.voided;
    } else if (trip.whereabouts == Whereabouts::tag_only) {
      ++out.unused;
    } else if (trip.whereabouts == Whereabouts::installed) {
      ++out.installed;
    } else if (trip.whereabouts == Whereabouts::destroyed) {
      ++out.destroyed;
    } else if (trip.whereabouts == Whereabouts::untracked) {
      ++out.untracked;
    } else {
      out.lines.push_back({trip, overdue_words(trip, desk.now(), transit_days)});
    }
  }
  std::stable_sort(out.lines.begin(), out.lines.end(),
                   [](const OutstandingLine& a, const OutstandingLine& b) {
                     return !a.overdue.empty() && b.overdue.empty();
                   });
  return out;
}

Result<std::vector<Finding>> findings(const Desk& desk, const std::string& turnaround, int transit_days) {
  auto record = desk.record();
  if (!record) return record.error();
  const auto wanted = known_turnaround(*record, turnaround);
  if (!wanted) return wanted.error();
  auto all = record->findings(desk.now(), transit_days);
  if (!wanted->empty()) std::erase_if(all, [&](const Finding& f) { return f.turnaround != *wanted; });
  return all;
}

std::string describe(const Event& event) {
  std::string out;
  const auto add = [&](std::string_view before, std::string_view text) {
    if (text.empty()) return;
    if (!out.empty()) out += before;
    out += text;
  };
  switch (event.step) {
    case Step::founding:
      if (event.desk) out = "desk \"" + event.desk->name + "\" (" + event.desk->role + ") began its log";
      break;
    case Step::commissioning:
      out = !event.halves.empty() && event.halves.front().half == Half::label ? "identification label issued"
                                                                              : "tag pair issued";
      if (event.pocket) out += " for " + event.pocket->text();
      break;
    case Step::printing:
      out = "sheet printed";
      break;
    case Step::reprinting:
      out = "printed again:";
      for (const auto& half : event.halves)
        out += (out.ends_with(':') ? " " : ", ") + std::string(to_text(half.half)) + " half copy " +
               std::to_string(half.copy);
      break;
    case Step::stock_taking:
      out = "a stack of stock looked at";
      break;
    case Step::settling:
      out = "findings closed";
      if (event.pocket) out += " of " + event.pocket->text();
      break;
    case Step::voiding:
      out = "number voided";
      break;
    case Step::matching:
      if (event.verdict && event.number)
        out = "halves of " + event.number->grouped() + " compared: " + std::string(to_text(*event.verdict));
      if (event.other) out += " with " + event.other->grouped();
      break;
    case Step::removing:
      out = "removed";
      if (event.pocket) out += " from " + event.pocket->text();
      break;
    case Step::installing:
      out = "installed";
      if (event.pocket) out += " in " + event.pocket->text();
      break;
    case Step::packing:
      out = "packed";
      break;
    case Step::shipping:
      out = "shipped";
      break;
    case Step::receiving:
      out = "received";
      break;
    case Step::unpacking:
      out = "unpacked";
      break;
    case Step::inspecting:
      out = "inspected";
      break;
    case Step::repairing:
      out = "repaired";
      break;
    case Step::storing:
      out = "stored";
      break;
    case Step::destroying:
      out = "destroyed";
      break;
  }
  if (event.pocket && event.pocket->side) out += " (" + std::string(to_text(*event.pocket->side)) + ")";
  add(", from ", event.from);
  add(event.step == Step::storing ? " at " : ", to ", event.to);
  add(", carton ", event.carton);
  add(", due ", event.due);
  add(", serial ", event.serial);
  add(", part ", event.part);
  add(", by ", event.by);
  add(", second person ", event.second);
  add("; ", likeness_words(event.halves));
  add("; reason: ", event.reason);
  add("; condition: ", event.condition);
  add("; outcome: ", event.outcome);
  add("; note: ", event.note);
  return out;
}

}  // namespace counterfoil
