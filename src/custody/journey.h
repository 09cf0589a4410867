// Where a valve can be, and which step may follow where. The table is about what custody hangs on: removal,
// packing, hand-over (shipping and receiving), installation. Unpacking is implied by whatever needs an open
// box, so its absence contradicts nothing.
#pragma once

#include <string>
#include <string_view>

#include "custody/event.h"

namespace counterfoil {

enum class Whereabouts {
  tag_only,    // issued, no valve on it yet: the valve, if it has a pocket, is still there
  pulled,      // out of its pocket, not packed
  packed,      // in its box or carton, not shipped
  in_transit,  // shipped, not received
  received,    // at a desk, not unpacked or later
  on_bench,    // unpacked, inspected or repaired
  stored,      // on a shelf
  installed,
  destroyed,
  untracked,  // removed under an identification label: nothing more is expected
};
std::string_view to_text(Whereabouts whereabouts);  // plain words: "pulled, not packed"

// Whether the valve is out of the machine and somewhere: pulled to stored.
bool is_out(Whereabouts whereabouts);

// Precondition for both: a journey step.
bool may_follow(Whereabouts whereabouts, Step step);
// Where the valve is after the step, whether the step may follow or not: what was seen was seen.
Whereabouts after(Whereabouts whereabouts, Step step);

// Whether the second entry, the next one in the journey, tells of the first one's removal or installation once
// more and names the pocket that the first one left out.
bool completes(const Event& first, const Event& second);

// For sentences, behind "was": "removed from U2 / 2 HE S1 at 2026-11-25 09:30".
std::string told(const Event& event);

}  // namespace counterfoil
