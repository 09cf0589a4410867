// Events as rows, for lists and scripts.
#pragma once

#include <vector>

#include "cli/output.h"
#include "workflow/desk.h"

namespace counterfoil {

Table event_table(const std::vector<LoggedEvent>& events);

}  // namespace counterfoil
