// Looking things up: everything known of one valve, where every valve of a turnaround is, and what is wrong.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "custody/record.h"
#include "workflow/desk.h"

namespace counterfoil {

struct Trace {
  ValveTrip trip;
  std::vector<LoggedEvent> events;  // in order
  std::vector<Finding> findings;    // that name this valve
};

// By a number, or else by a serial: all trips of that valve, oldest first. `refused` when nothing is known of
// it.
Result<std::vector<Trace>> trace_valve(const Desk& desk, const std::string& typed);

// What a number with '?' can stand for, rows as candidates.h has them. `malformed` when it has no '?' or not ten
// characters; `refused` when no number on record is near.
struct NearNumber {
  ValveTrip trip;
  bool as_typed = true;  // else with one slip besides
  std::string retired;   // why it is used up, in words
};
Result<std::vector<NearNumber>> near_numbers(const Desk& desk, const std::string& typed);

struct OutstandingLine {
  ValveTrip trip;
  std::string overdue;  // why, in words; empty when it is not
};
struct Outstanding {
  std::vector<OutstandingLine> lines;  // still under way, overdue ones first
  std::size_t installed = 0, destroyed = 0, voided = 0, untracked = 0, unused = 0;  // the rest, counted
};

inline constexpr int kTransitDays = 7;  // common practice; settable

// An empty turnaround: all.
Result<Outstanding> outstanding(const Desk& desk, const std::string& turnaround, int transit_days);
Result<std::vector<Finding>> findings(const Desk& desk, const std::string& turnaround, int transit_days);

// One line of an event for people: "removed from U2 / 2 HE S1, by Åse: broken plate".
std::string describe(const Event& event);

}  // namespace counterfoil
