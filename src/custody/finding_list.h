// Collects what stands against a record. One member function per source of findings; each takes time linear
// in the events. Inner to this room: others call Record::findings.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "custody/record.h"

namespace counterfoil {

class FindingList {
 public:
  FindingList(const Record& record, const Moment& today, int transit_days);

  void add_raised();    // what applying turned up
  void add_journeys();  // steps of each trip against each other
  void add_sides();     // valves whose side nobody could check, pockets with two sides
  void add_numbers();   // never issued, untagged
  void add_matchings();
  void add_overdue();
  void add_serials();  // from one trip of a valve to its next
  void add_pockets();
  void add_unremoved();

  std::vector<Finding> sorted() &&;

 private:
  struct Walk;
  struct Sorted {
    std::size_t first;
    Finding finding;
  };

  // Unless it is settled: an entry later than its last event names one of the subjects.
  void add(Finding finding, const std::vector<std::string>& subjects);
  void add(FindingKind kind, const ValveTrip& trip, std::string what, std::string next,
           std::vector<EventRef> events);
  void add_step(const ValveTrip& trip, const Walk& walk, const LoggedEvent& logged);
  void add_removal(const ValveTrip& trip, const Walk& walk, const LoggedEvent& logged);
  void add_out_of_order(const ValveTrip& trip, const Walk& walk, const LoggedEvent& logged);
  void add_wrong_pocket(const ValveTrip& trip, const LoggedEvent& logged);
  void add_time(const ValveTrip& trip, const Walk& walk, const LoggedEvent& logged);
  void add_unchecked(std::size_t sequence);
  void add_two_sides(const PocketLog::Known& pocket);
  // A number of a desk that is not in the record, where no storeroom is: what went before is told elsewhere.
  bool is_foreign(const ValveTrip& trip) const { return no_storeroom_ && is_of_unknown_desk(trip); }
  bool is_of_unknown_desk(const ValveTrip& trip) const;
  std::string entry_name(const EventRef& ref, bool with_desk) const;
  void add_pocket(const PocketLog::Known& pocket, const PocketLog::Move& before, const PocketLog::Move& now);
  bool is_settled(const Finding& finding, const std::vector<std::string>& subjects, std::size_t last) const;

  const Event& event_of(const EventRef& ref) const { return record_.entry(ref).logged.event; }
  std::size_t sequence_of(const EventRef& ref) const { return record_.sequence_.at(ref); }
  const ValveTrip& trip_at(std::size_t sequence) const {
    return record_.trips_.at(record_.entries_[sequence].trip);
  }

  const Record& record_;
  const Moment& today_;
  int transit_days_;
  std::set<std::string> prefixes_;  // of the desks in the record
  bool no_storeroom_;               // all of them are vendors and mechanics
  std::vector<Sorted> found_;
};

// Words that settlings name findings by.
std::vector<std::string> subject_words(const ValveTrip& trip);
std::string subject_word(const Pocket& pocket);
// For what a later removal or installation puts right.
std::string side_word(const std::string& subject);

}  // namespace counterfoil
