// The valves that a log order speaks of: from typed numbers, from the tags on its photographs, from a serial
// or a label; each with what showed it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/moment.h"
#include "base/result.h"
#include "custody/event.h"
#include "workflow/desk.h"
#include "workflow/log.h"

namespace counterfoil {

// One valve to log, and what showed it.
struct LogSubject {
  std::optional<Number> number;
  std::vector<HalfSeen> halves;
  std::vector<Evidence> evidence;
  std::optional<Moment> taken;
  std::string file;  // the photograph that showed it first
  std::vector<std::string> notes;
};

// Reads the photographs; those that give no number become problems. With a serial or a label, photographs without a tag
// are evidence of that valve.
Result<std::vector<LogSubject>> log_subjects(const Desk& desk, const LogOrder& order,
                                             std::vector<Error>& problems);

}  // namespace counterfoil
