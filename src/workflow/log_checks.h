// What is looked at before an entry is logged: which pocket is meant, whether suction and discharge agree, what the tag
// itself tells, and whether the entry is there already. Nothing here refuses a contradiction but that of the sides.
#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "custody/record.h"
#include "workflow/desk.h"
#include "workflow/known_names.h"

namespace counterfoil {

// Completes the pocket that was typed and spells it as the record does, or takes the record's for a removal.
Result<void> settle_pocket(Event& event, const ValveTrip* trip, const KnownNames& known,
                           std::vector<std::string>& notes);

// Stops where suction and discharge disagree and no second person has looked; says so where it could not be checked.
Result<void> check_side(Event& event, const ValveTrip* trip, const Record& record,
                        std::vector<std::string>& notes);

// What the tag tells against its use: voided, an old copy, issued by nobody or by another desk.
void note_tag(const Desk& desk, const Event& event, const ValveTrip* trip, std::vector<std::string>& notes);

// The same step of the same valve by the same photographs, or without any at the same stated time; where it is.
std::optional<EventRef> logged_before(const std::vector<LoggedEvent>& before, const Event& event);

}  // namespace counterfoil
