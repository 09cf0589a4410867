// State is computed, never stored as truth: apply the events in order and you have where every valve is, what
// is missing and what contradicts what. Pure: no store, no clock, no files.
//
// Order: whereabouts follow the order of the log, because clocks are wrong more often than the order of
// entries. A step that surely happened before the last one is a late entry when it contradicts that order, or
// when a hole at its own time waits for it: it is put there and moves nothing. A step whose time is known from
// the logging alone keeps its place in its log. A removal or installation told of without its pocket, and then
// once more with it, is one: the second entry completes the first.
#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/moment.h"
#include "custody/event.h"
#include "custody/finding.h"
#include "custody/journey.h"
#include "custody/pocket_log.h"

namespace counterfoil {

struct LoggedEvent {
  EventRef ref;
  Event event;
};

// One valve as far as the record knows it: by the number of the trip, by a serial mark, or by both.
struct ValveTrip {
  std::optional<Number> number;
  std::string serial;
  std::optional<EventRef> tied_by;  // the event that first named the serial beside the number
  bool label = false;               // an identification label, not a pair
  bool issued = false;              // a commissioning event of its number is in the record
  bool voided = false;
  std::string void_reason;
  int bag_copy = 1, box_copy = 1, label_copy = 1;  // newest copy of each half
  std::string turnaround;
  std::optional<Pocket> meant_for;  // the pocket that the pair was issued for
  // As stated, or else the pocket that it was known to sit in, or else the one that it is meant for.
  std::optional<Pocket> removed_from;
  std::optional<Pocket> installed_in;  // nothing once it is removed again
  std::optional<Side> side_before;     // the valve's side by the earlier trip of its serial
  std::string part;
  Whereabouts began =
      Whereabouts::tag_only;  // where it was when the trip began; else for a valve with a new tag
  Whereabouts whereabouts = Whereabouts::tag_only;
  std::string place;                      // shelf, desk or receiver, as last stated
  std::string due;                        // date it is expected back, as last stated; empty once it is back
  std::optional<Moment> since;            // `at` of the last journey step
  std::vector<EventRef> history;          // every event that names it, in order of the log
  std::vector<EventRef> journey;          // its journey steps, in order of happening as far as that is known
  std::optional<EventRef> voiding;        // the event that voided it
  std::optional<EventRef> last_matching;  // the latest verdict on its halves
  bool carried_on = false;                // voided, and another trip goes on with the valve
  std::vector<EventRef> overrides;  // against its side, since a removal or installation last agreed with it

  // "K74Q 2B8X 61", or the serial when there is no number.
  std::string name() const;
  // The side of the pocket it came from, or else is meant for, or else had before.
  std::optional<Side> own_side() const;
  // Its own, or else that of the pocket it was installed in: a valve known by its serial alone keeps it.
  std::optional<Side> side() const;
  // The journey goes on: neither installed nor destroyed, untracked or voided.
  bool is_open() const;
  // Where a step leaves this valve: under an identification label it is not followed once it is out.
  Whereabouts after_step(Whereabouts before, Step step) const;
};

class Record {
 public:
  // An entry that is in the record already changes nothing.
  void apply(const EventRef& ref, const Event& event);

  // Trips by key: number text, or "serial:..." for a valve known by its serial alone ("serial 2:...", and so
  // on, for its next trips). A trip begun by serial moves to the number's key when an event names both.
  const std::map<std::string, ValveTrip>& trips() const { return trips_; }
  const ValveTrip* find(const Number& number) const;
  // All trips of valves with that serial, oldest first.
  std::vector<const ValveTrip*> with_serial(std::string_view serial) const;
  const LoggedEvent* event(const EventRef& ref) const;
  // The side of a pocket as the record has it: from the latest list that pairs were issued for, or else as
  // first said.
  std::optional<Side> side_of(const Pocket& pocket) const;
  // Desks by their log's origin.
  const std::map<std::string, DeskCard>& desks() const { return desks_; }

  // Contradictions and holes, worst first, then by the first event. `today`: for due dates and transit times.
  // Each stands until it is put right (a later matching says matched, a pocket is filled, ...), until the
  // number is voided, or until a settling event names its number, serial or pocket. What concerns the side of
  // an installed valve outlives its number, and is put right when the valve is removed again or installed on
  // its own side; a pocket with two sides, when the pairs of one side are voided.
  std::vector<Finding> findings(const Moment& today, int transit_days) const;

 private:
  friend class FindingList;

  struct Entry {
    LoggedEvent logged;
    std::size_t sequence = 0;  // the order of applying
    std::string trip;          // its key, empty when the event is about none
  };
  // Turned up while applying; whether it still stands is decided when findings are asked for.
  struct Raised {
    Finding finding;
    std::vector<std::string> subjects;  // words that a settling names it by
  };
  // Entries differ in their position sooner than in their log.
  struct ByPosition {
    bool operator()(const EventRef& a, const EventRef& b) const {
      return a.position != b.position ? a.position < b.position : a.origin < b.origin;
    }
  };
  // By subject: what earlier entries than that one make no longer stands.
  using Settled = std::map<std::string, std::size_t, std::less<>>;

  const Entry& entry(const EventRef& ref) const;

  std::string begin_trip(std::string_view serial);
  std::string trip_of(const Event& event);
  void tie(const std::string& key, const Entry& entry);
  void absorb(ValveTrip& trip, const std::string& other_key);
  static void follow(ValveTrip& trip, const ValveTrip& before);
  static void carry_on(ValveTrip& trip, ValveTrip& before);
  void found(const Entry& entry);
  void settle(const Event& event);
  void commission(ValveTrip& trip, const Entry& entry);
  void reprint(ValveTrip& trip, const Event& event);
  void take_step(ValveTrip& trip, const Entry& entry);
  std::optional<std::size_t> late_place(const ValveTrip& trip, const LoggedEvent& logged) const;
  static bool surely_earlier(const LoggedEvent& late, const LoggedEvent& before);
  bool is_back(const Entry& entry) const;
  bool empties_pocket(const ValveTrip& trip, const Pocket& pocket, const Entry* completed);
  void move_valve(ValveTrip& trip, const Entry& entry, bool late, const Entry* completed);
  void check_side(ValveTrip& trip, const Entry& entry, bool late);
  void check_halves(const ValveTrip& trip, const Entry& entry);
  void check_part(const ValveTrip& trip, const Entry& entry);
  void raise(FindingKind kind, const ValveTrip& trip, std::string what, std::string next,
             std::vector<EventRef> events);

  std::map<std::string, ValveTrip> trips_;
  std::map<std::string, DeskCard> desks_;
  std::deque<Entry> entries_;  // by sequence number
  std::map<EventRef, std::size_t, ByPosition> sequence_;
  std::map<std::string, std::vector<std::string>, std::less<>> serials_;  // keys of trips, oldest first
  PocketLog pockets_;
  std::vector<Raised> raised_;
  std::vector<std::size_t> unchecked_;  // installations whose two sides were not both known
  Settled settled_, withdrawn_;         // by settling, or by later steps; by voiding
};

// Whether logging this event would put a suction valve into a discharge pocket or the reverse: the one
// contradiction that stops. `trip`: what the record knows of the valve, may be null; `recorded`: the pocket's
// side as the record has it. Removing: the tag's pocket, or else the valve's own side, against the pocket;
// installing: the valve's side. Returns what disagrees with what, in words; nothing when all that is known
// agrees, when the valve is removed from where it was installed, and for every other step.
std::optional<std::string> side_conflict(const Event& event, const ValveTrip* trip,
                                         std::optional<Side> recorded);

}  // namespace counterfoil
