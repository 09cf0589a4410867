// Logging a step of a valve's journey, by photograph or by typed number, in all three ways in: a tag pair, a
// valve that bears a serial, a valve that will not be tracked. Never refused for contradicting the record,
// except that a suction valve is not logged into a discharge pocket or the reverse without a second person.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/moment.h"
#include "base/result.h"
#include "custody/event.h"
#include "workflow/desk.h"
#include "workflow/read.h"

namespace counterfoil {

struct LogOrder {
  Step step = Step::removing;
  // What the valves are known by.
  std::vector<std::string> numbers;  // as typed
  std::vector<std::string> photos;   // files whose tags are the numbers
  std::string serial;                // alone, or tied to the one number
  bool label = false;                // not tracked: take a number for an identification label

  std::vector<std::string> evidence;  // files that are evidence only
  bool copy_photos = true;
  ReadingTerms reading;  // of the photographs

  std::string unit, pocket, side;  // as typed; the unit may be left out when the tag's pocket tells it
  std::string turnaround, part;
  std::string time;  // as typed; empty: the photograph's, else the time of logging
  std::string by, second, reason;
  std::string from, to, carton, due;
  std::string condition, outcome, note;
};

// One valve's line of what was done.
struct LogLine {
  LoggedEvent logged;
  bool already = false;  // the same photograph or stated time had logged this step before: nothing was added
  std::vector<std::string> notes;  // what the person should know, plain sentences
};

struct LogReport {
  std::vector<LogLine> lines;
  std::vector<Error> problems;  // photographs that gave no number; the others were logged
};

// All lines in one transaction. `refused` with kind "stop" words when suction and discharge disagree and
// there is no second person with a reason; then nothing at all is logged.
Result<LogReport> log_step(Desk& desk, const LogOrder& order);

}  // namespace counterfoil
