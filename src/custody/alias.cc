// Which trip an event belongs to, and the dated alias between a number and a serial: the valve is the thing,
// the number is one trip of it.
#include <algorithm>

#include "custody/record.h"

namespace counterfoil {

std::string Record::begin_trip(std::string_view serial) {
  auto& keys = serials_[std::string(serial)];
  std::string key;
  for (std::size_t n = keys.size() + 1; key.empty() || trips_.contains(key); ++n)
    key = (n == 1 ? "serial:" : "serial " + std::to_string(n) + ":") + std::string(serial);
  ValveTrip& trip = trips_[key];
  trip.serial = serial;
  if (!keys.empty()) {
    // A valve whose tag was voided goes on by its serial from where it was.
    ValveTrip& before = trips_.at(keys.back());
    follow(trip, before);
    if (before.voided && !before.carried_on && is_out(before.whereabouts)) {
      carry_on(trip, before);
      trip.turnaround = before.turnaround;
    }
  }
  keys.push_back(key);
  return key;
}

std::string Record::trip_of(const Event& event) {
  if (event.number) {
    if (event.step == Step::settling && !trips_.contains(event.number->text())) return {};
    trips_[event.number->text()].number = event.number;
    return event.number->text();
  }
  if (event.serial.empty()) return {};
  const auto keys = serials_.find(event.serial);
  if (keys == serials_.end()) return is_journey_step(event.step) ? begin_trip(event.serial) : std::string();
  const auto open = std::find_if(keys->second.rbegin(), keys->second.rend(),
                                 [&](const std::string& key) { return trips_.at(key).is_open(); });
  if (open != keys->second.rend()) return *open;
  const ValveTrip& last = trips_.at(keys->second.back());
  const bool ended = last.whereabouts == Whereabouts::installed || last.whereabouts == Whereabouts::untracked;
  // Logged late: out of where it sat before it was installed.
  if (event.step == Step::removing && late_place(last, entries_.back().logged) == 0 &&
      entry(last.journey.front()).logged.event.step != Step::removing)
    return keys->second.back();
  if ((is_journey_step(event.step) && last.voided) || (event.step == Step::removing && ended))
    return begin_trip(event.serial);
  return keys->second.back();
}

void Record::tie(const std::string& key, const Entry& entry) {
  const auto& [ref, event] = entry.logged;
  ValveTrip& trip = trips_.at(key);
  if (event.serial.empty() || event.serial == trip.serial) return;
  if (!trip.serial.empty())
    return raise(FindingKind::two_serials, trip,
                 "the number " + trip.name() + " was logged for serial " + trip.serial + " and for serial " +
                     event.serial,
                 "find both valves; if two valves carry this number, issue a new tag for one",
                 {trip.tied_by.value_or(trip.history.front()), ref});
  trip.serial = event.serial;
  trip.tied_by = ref;
  auto& keys = serials_[event.serial];
  if (!keys.empty()) {
    const std::string before_key = keys.back();
    ValveTrip& before = trips_.at(before_key);
    if (before.is_open() && !before.number && trip.journey.empty()) {
      keys.pop_back();
      absorb(trip, before_key);
    } else if (before.is_open()) {
      raise(FindingKind::serial_twice, trip,
            "serial " + trip.serial + " is on its way twice: " +
                (before.number ? "as " + before.name() : "by its serial") + " and as " + trip.name(),
            "find the valve and void the number that is not on it",
            {before.journey.empty() ? before.history.back() : before.journey.back(), ref});
    } else if (follow(trip, before);
               before.voided && !before.carried_on && is_out(before.whereabouts) && trip.journey.empty()) {
      carry_on(trip, before);
    }
  }
  serials_[event.serial].push_back(key);
}

// The next trip of a valve begins where its last one ended.
void Record::follow(ValveTrip& trip, const ValveTrip& before) {
  trip.side_before = before.side();
  if (before.whereabouts == Whereabouts::installed && trip.journey.empty() && !trip.meant_for)
    trip.installed_in = before.installed_in;
}

// The number of a valve that is out was voided: another trip takes over from where it is.
void Record::carry_on(ValveTrip& trip, ValveTrip& before) {
  before.carried_on = true;
  trip.removed_from = before.removed_from;
  if (trip.part.empty()) trip.part = before.part;
  trip.began = trip.whereabouts = before.whereabouts;
  trip.since = before.since;
  trip.place = before.place;
  trip.due = before.due;
}

// A trip begun by serial alone gets its number: one valve, one trip.
void Record::absorb(ValveTrip& trip, const std::string& other_key) {
  ValveTrip other = std::move(trips_.at(other_key));
  trips_.erase(other_key);
  const std::string& key = trip.number->text();
  for (const auto& ref : other.history) entries_[sequence_.at(ref)].trip = key;
  trip.history.insert(trip.history.end(), other.history.begin(), other.history.end());
  std::sort(trip.history.begin(), trip.history.end(),
            [this](const EventRef& a, const EventRef& b) { return sequence_.at(a) < sequence_.at(b); });
  trip.journey = std::move(other.journey);
  trip.removed_from = std::move(other.removed_from);
  trip.installed_in = std::move(other.installed_in);
  trip.side_before = other.side_before;
  trip.overrides = std::move(other.overrides);
  if (trip.part.empty()) trip.part = std::move(other.part);
  if (trip.turnaround.empty()) trip.turnaround = std::move(other.turnaround);
  trip.began = other.began;
  trip.whereabouts = other.whereabouts;
  trip.place = std::move(other.place);
  trip.due = std::move(other.due);
  trip.since = other.since;
}

}  // namespace counterfoil
