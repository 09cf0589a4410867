// Settling: a person looked into the findings of a number, a serial or a pocket and says why they are closed.
// What was logged stays; only the findings end.
#pragma once

#include <string>

#include "base/result.h"
#include "custody/record.h"
#include "workflow/desk.h"

namespace counterfoil {

struct SettleOrder {
  std::string number, serial, unit, pocket;  // one of: a number, a serial, a unit with its pocket
  std::string reason, by;
};
// Returns the findings that this closed; refuses when there is none to close.
Result<std::vector<Finding>> settle_findings(Desk& desk, const SettleOrder& order, int transit_days);

}  // namespace counterfoil
