// Which of two events surely happened first, as far as their times can tell. Times are of different grain:
// with an offset a point, without one a local time somewhere on earth, stated as a bare date a whole day.
// Clocks of cameras and desks differ a little, so a few minutes decide nothing.
//
// Rule: two moments that both lack an offset are taken to be of one place. Against a moment with an offset,
// one without may lie 14 hours to either side.
#pragma once

#include "custody/event.h"

namespace counterfoil {

inline constexpr int kClockSkewMinutes = 10;

bool surely_before(const Event& first, const Event& second);

// Whether the event says that it happened after it was logged.
bool surely_ahead(const Event& event);

// For sentences: "at 2026-11-25 09:30", or "on 2026-11-25" when a person stated no more.
std::string spoken_time(const Event& event);

}  // namespace counterfoil
