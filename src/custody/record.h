// State is computed, never stored as truth: apply the events in order and you have where every valve is, what is
// missing and what contradicts what. Pure: no store, no clock, no files.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/moment.h"
#include "custody/event.h"

namespace counterfoil {

// Which entry of which log.
struct EventRef {
  std::string origin;
  std::uint64_t position = 0;
  friend auto operator<=>(const EventRef&, const EventRef&) = default;
};
struct LoggedEvent {
  EventRef ref;
  Event event;
};

enum class Whereabouts {
  tag_only,     // issued, no valve on it yet: the valve, if it has a pocket, is still there
  pulled,       // out of its pocket, not packed
  packed,       // in its box or carton, not shipped
  in_transit,   // shipped, not received
  received,     // at a desk, not unpacked or later
  on_bench,     // unpacked, inspected or repaired
  stored,       // on a shelf
  installed,
  destroyed,
  untracked,    // removed under an identification label: nothing more is expected
};
std::string_view to_text(Whereabouts whereabouts);  // plain words: "pulled, not packed"

// One valve as far as the record knows it: by the number of the trip, by a serial mark, or by both.
struct ValveTrip {
  std::optional<Number> number;
  std::string serial;
  bool label = false;   // an identification label, not a pair
  bool issued = false;  // a commissioning event of its number is in the record
  bool voided = false;
  std::string void_reason;
  int bag_copy = 1, box_copy = 1;  // newest copy of each half
  std::string turnaround;
  std::optional<Pocket> meant_for;      // the pocket that the pair was issued for
  std::optional<Pocket> removed_from;
  std::optional<Pocket> installed_in;
  std::string part;
  Whereabouts whereabouts = Whereabouts::tag_only;
  std::string place;  // shelf, desk or receiver, as last stated
  std::string due;    // date it is expected back, as last stated
  std::optional<Moment> since;  // `at` of the last journey step
  std::vector<EventRef> history;

  // "K74Q 2M8X 61", or the serial when there is no number.
  std::string name() const;
  // The side of the pocket it came from, or else is meant for.
  std::optional<Side> side() const;
};

enum class FindingKind {
  side_disagreement,   // a suction valve logged into a discharge pocket or the reverse
  removed_twice,       // a second removal with no installation between
  pocket_twice,        // one pocket emptied twice, or filled twice, with nothing between
  wrong_pocket,        // removed from, or installed in, another pocket than it is meant for
  step_out_of_order,   // received but never shipped, installed but never removed, packed while installed, ...
  after_end,           // a step after it was destroyed, voided, or installed again
  never_issued,        // a number of a known prefix that no event issues
  issued_elsewhere,    // a number of a prefix whose desk is not in the record
  swapped, alone, doubled, crowded, old_copy,  // from matchings that later ones have not put right
  time_runs_back,      // an event says it happened before the one it must follow
  time_ahead,          // an event says it happened after it was logged
  not_removed,         // planned for the turnaround, others are out, this one has no removal
  not_back,            // its due date has passed, or it is in transit for too long
  pocket_open,         // a valve was removed, none was installed since
};
std::string_view to_text(FindingKind kind);

struct Finding {
  FindingKind kind{};
  std::string subject;          // number (grouped), serial or pocket
  std::string turnaround;       // may be empty
  std::string what;             // one sentence, plain words
  std::string next;             // what to do, one sentence
  std::vector<EventRef> events; // that make it, in order; never empty
};

class Record {
 public:
  void apply(const EventRef& ref, const Event& event);

  // Trips by key: number text, or "serial:..." where there is no number.
  const std::map<std::string, ValveTrip>& trips() const { return trips_; }
  const ValveTrip* find(const Number& number) const;
  // All trips of valves with that serial, oldest first.
  std::vector<const ValveTrip*> with_serial(std::string_view serial) const;
  const LoggedEvent* event(const EventRef& ref) const;
  // The side of a pocket as the record has it.
  std::optional<Side> side_of(const Pocket& pocket) const;
  // Desks by their log's origin.
  const std::map<std::string, DeskCard>& desks() const { return desks_; }

  // Contradictions and holes, worst first, then by the first event. `today`: for due dates and transit times.
  std::vector<Finding> findings(const Moment& today, int transit_days) const;

 private:
  std::map<std::string, ValveTrip> trips_;
  std::map<std::string, DeskCard> desks_;
};

// Whether logging this event would put a suction valve into a discharge pocket or the reverse: the one contradiction
// that stops. `trip`: what the record knows of the valve, may be null; `recorded`: the pocket's side as the record
// has it. Returns what disagrees with what, in words; nothing when all that is known agrees.
std::optional<std::string> side_conflict(const Event& event, const ValveTrip* trip, std::optional<Side> recorded);

}  // namespace counterfoil
