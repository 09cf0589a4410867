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

// A number on record that one with '?' can stand for.
struct NearNumber {
  ValveTrip trip;
  bool as_typed = true;  // else with one slip besides
  std::string retired;   // why it is used up, in words
};

struct Traced {
  std::vector<Trace> traces;  // all trips of the valve, oldest first
  std::vector<NearNumber>
      near;  // when there are none because the number is not whole; as candidates.h orders them
};
// By a number, or else by a serial. `refused` when nothing is known of it.
Result<Traced> trace_valve(const Desk& desk, const std::string& typed);

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
