#include "custody/record.h"

#include <algorithm>

#include "custody/finding_list.h"
#include "custody/time_order.h"

namespace counterfoil {
const ValveTrip* Record::find(const Number& number) const {
  const auto found = trips_.find(number.text());
  return found == trips_.end() ? nullptr : &found->second;
}

std::vector<const ValveTrip*> Record::with_serial(std::string_view serial) const {
  std::vector<const ValveTrip*> out;
  if (const auto keys = serials_.find(serial); keys != serials_.end())
    for (const auto& key : keys->second) out.push_back(&trips_.at(key));
  return out;
}

const LoggedEvent* Record::event(const EventRef& ref) const {
  const auto found = sequence_.find(ref);
  return found == sequence_.end() ? nullptr : &entries_[found->second].logged;
}

const Record::Entry& Record::entry(const EventRef& ref) const { return entries_[sequence_.at(ref)]; }

std::optional<Side> Record::side_of(const Pocket& pocket) const {
  const auto* known = pockets_.find(pocket);
  return known == nullptr ? std::nullopt : known->pocket.side;
}

void Record::apply(const EventRef& ref, const Event& event) {
  if (!sequence_.emplace(ref, entries_.size()).second) return;
  Entry& entry = entries_.emplace_back(Entry{{ref, event}, entries_.size(), {}});
  if (event.step == Step::founding) return found(entry);
  if (event.step == Step::settling) settle(event);
  entry.trip = trip_of(event);
  if (entry.trip.empty()) return;
  tie(entry.trip, entry);
  ValveTrip& trip = trips_.at(entry.trip);
  trip.history.push_back(ref);
  if (trip.turnaround.empty()) trip.turnaround = event.turnaround;
  if (event.other)
    if (const auto other = trips_.find(event.other->text()); other != trips_.end() && &other->second != &trip)
      other->second.history.push_back(ref);
  if (surely_ahead(event))
    raise(FindingKind::time_ahead, trip,
          "an entry of " + trip.name() + " says that it happened " + spoken_time(event) +
              ", which is after it was logged, " + to_text(event.logged),
          "set the clock of the camera or the desk, and state the right time in a note", {ref});
  switch (event.step) {
    case Step::commissioning:
      return commission(trip, entry);
    case Step::reprinting:
      return reprint(trip, event);
    case Step::voiding:
      trip.voided = true;
      trip.void_reason = event.reason;
      trip.voiding = ref;
      withdrawn_[trip.number->text()] = entry.sequence;
      return;
    case Step::matching:
      trip.last_matching = ref;
      return;
    case Step::settling:
      trip.overrides.clear();
      return;
    default:
      if (is_journey_step(event.step)) take_step(trip, entry);
  }
}

void Record::found(const Entry& entry) {
  const auto& [ref, event] = entry.logged;
  for (const auto& [origin, desk] : desks_)
    if (origin != ref.origin && desk.prefix == event.desk->prefix)
      raised_.push_back(
          {{FindingKind::shared_prefix,
            desk.prefix,
            "",
            desk.name + " and " + event.desk->name + " both issue numbers that begin with " + desk.prefix,
            "let one of the two desks begin a ledger with another prefix before it prints tags",
            {ref}},
           {}});
  desks_.insert_or_assign(ref.origin, *event.desk);
}

void Record::settle(const Event& event) {
  const std::size_t now = entries_.size() - 1;
  if (event.number) {
    settled_[event.number->text()] = now;
    if (const auto* trip = find(*event.number); trip != nullptr && !trip->serial.empty())
      settled_["serial:" + trip->serial] = now;
  }
  if (!event.serial.empty()) settled_["serial:" + event.serial] = now;
  if (event.pocket) settled_[subject_word(*event.pocket)] = now;
}

void Record::commission(ValveTrip& trip, const Entry& entry) {
  const auto& [ref, event] = entry.logged;
  if (trip.issued) {
    const auto first = std::find_if(trip.history.begin(), trip.history.end(), [&](const EventRef& earlier) {
      return this->entry(earlier).logged.event.step == Step::commissioning;
    });
    raise(FindingKind::issued_twice, trip, "the number " + trip.name() + " was issued twice",
          "find both tags; issue a new tag for each valve that bears one, and void this number",
          {*first, ref});
  }
  trip.issued = true;
  trip.label = std::all_of(event.halves.begin(), event.halves.end(),
                           [](const HalfSeen& half) { return half.half == Half::label; });
  reprint(trip, event);
  if (trip.part.empty()) trip.part = event.part;
  if (!event.pocket) return;
  trip.meant_for = event.pocket;
  pockets_.plan(*event.pocket, event.part, entry.sequence);
}

void Record::reprint(ValveTrip& trip, const Event& event) {
  for (const auto& half : event.halves) {
    int& newest = half.half == Half::bag   ? trip.bag_copy
                  : half.half == Half::box ? trip.box_copy
                                           : trip.label_copy;
    newest = std::max(newest, half.copy);
  }
}

void Record::take_step(ValveTrip& trip, const Entry& entry) {
  const auto& [ref, event] = entry.logged;
  const Entry* completed = trip.journey.empty() ? nullptr : &this->entry(trip.journey.back());
  if (completed != nullptr && !completes(completed->logged.event, event)) completed = nullptr;
  const auto late = completed == nullptr ? late_place(trip, entry.logged) : std::nullopt;
  check_side(trip, entry, late.has_value());
  check_halves(trip, entry);
  check_part(trip, entry);
  if (late) {
    trip.journey.insert(trip.journey.begin() + static_cast<std::ptrdiff_t>(*late), ref);
  } else {
    trip.journey.push_back(ref);
    trip.whereabouts = trip.after_step(trip.whereabouts, event.step);
    if (completed == nullptr || event.known != TimeSource::logged) trip.since = event.at;
    if (event.step == Step::removing || event.step == Step::installing || event.step == Step::destroying)
      trip.place.clear();
    if (!event.to.empty()) trip.place = event.to;
    if (is_back(entry)) trip.due.clear();
    if (!event.due.empty()) trip.due = event.due;
  }
  if (event.step == Step::removing || event.step == Step::installing)
    move_valve(trip, entry, late.has_value(), completed);
  if (event.pocket) pockets_.mention(*event.pocket, entry.sequence);
  if (!event.part.empty() && (trip.part.empty() || event.step == Step::repairing)) trip.part = event.part;
}

// Expected back no more: on a shelf, in a pocket, scrapped, or received by a storeroom that names no other
// receiver.
bool Record::is_back(const Entry& entry) const {
  const auto& [ref, event] = entry.logged;
  if (event.step == Step::storing || event.step == Step::installing || event.step == Step::destroying)
    return true;
  const auto desk = desks_.find(ref.origin);
  return event.step == Step::receiving && desk != desks_.end() && desk->second.role == "storeroom" &&
         (event.to.empty() || event.to == desk->second.name);
}

bool Record::surely_earlier(const LoggedEvent& late, const LoggedEvent& before) {
  // Within one log the order of two loggings is that of their entries.
  if (late.event.known == TimeSource::logged && late.ref.origin == before.ref.origin) return false;
  return surely_before(late.event, before.event);
}

// Where in the journey a late entry belongs; nothing when the event just comes next.
std::optional<std::size_t> Record::late_place(const ValveTrip& trip, const LoggedEvent& logged) const {
  const Step step = logged.event.step;
  std::size_t place = trip.journey.size();
  while (place > 0 && surely_earlier(logged, entry(trip.journey[place - 1]).logged)) --place;
  if (place == trip.journey.size()) return std::nullopt;
  if (!may_follow(trip.whereabouts, step)) return place;
  Whereabouts then = trip.began;
  for (std::size_t i = 0; i < place; ++i)
    then = trip.after_step(then, entry(trip.journey[i]).logged.event.step);
  const Step next = entry(trip.journey[place]).logged.event.step;
  const bool fills =
      !may_follow(then, next) && may_follow(then, step) && may_follow(trip.after_step(then, step), next);
  return fills ? std::optional(place) : std::nullopt;
}

// Whether a removal from there empties the pocket: it does not when that was told of already. What a completed
// removal was taken to have emptied is taken back.
bool Record::empties_pocket(const ValveTrip& trip, const Pocket& pocket, const Entry* completed) {
  if (completed != nullptr && trip.removed_from) {
    if (trip.removed_from->text() == pocket.text()) return false;
    pockets_.withdraw(*trip.removed_from, completed->sequence);
  }
  const auto* known = pockets_.find(pocket);
  if (known == nullptr || known->moves.empty() || known->moves.back().filled) return true;
  // The valve got a new tag: the one that came out of here bears a number that was voided since.
  ValveTrip& before = trips_.at(entries_[known->moves.back().sequence].trip);
  if (&before == &trip || !before.voided || before.carried_on || !is_out(before.whereabouts)) return true;
  before.carried_on = true;
  return false;
}

void Record::move_valve(ValveTrip& trip, const Entry& entry, bool late, const Entry* completed) {
  const Event& event = entry.logged.event;
  const bool removal = event.step == Step::removing;
  std::optional<Pocket> pocket = event.pocket;
  if (!pocket && removal) pocket = trip.installed_in && !late ? trip.installed_in : trip.meant_for;
  if (!pocket) return;
  if (!pocket->side) pocket->side = side_of(*pocket);
  const bool moves = !removal || empties_pocket(trip, *pocket, completed);
  if (removal && (!late || !trip.removed_from)) trip.removed_from = pocket;
  if (removal && !late) trip.installed_in.reset();
  if (!removal && (!late || !trip.installed_in)) trip.installed_in = pocket;
  if (!moves) return;
  pockets_.move(*pocket, {!removal, entry.sequence, event.known != TimeSource::logged},
                [this](std::size_t a, std::size_t b) {
                  return surely_earlier(entries_[a].logged, entries_[b].logged);
                });
  // Whatever valve sat there is out.
  if (removal && event.pocket && pockets_.find(*pocket)->moves.back().sequence == entry.sequence)
    settled_[side_word(subject_word(*pocket))] = entry.sequence;
}

void Record::check_halves(const ValveTrip& trip, const Entry& entry) {
  const auto& [ref, event] = entry.logged;
  if (!trip.issued) return;
  for (const auto& half : event.halves) {
    const int newest = half.half == Half::bag   ? trip.bag_copy
                       : half.half == Half::box ? trip.box_copy
                                                : trip.label_copy;
    if (half.copy == newest) continue;
    const std::string seen = "the " + std::string(to_text(half.half)) + " half of " + trip.name() +
                             " was seen as copy " + std::to_string(half.copy);
    if (half.copy < newest)
      raise(FindingKind::old_copy, trip, seen + " after copy " + std::to_string(newest) + " was printed",
            "destroy the old copy and tie or stick the newest one", {ref});
    else
      raise(FindingKind::never_issued, trip,
            seen + ", and only copy " + std::to_string(newest) + " was printed",
            "ask who printed that copy; log the reprint if it was made at a desk of yours", {ref});
  }
}

void Record::check_part(const ValveTrip& trip, const Entry& entry) {
  const auto& [ref, event] = entry.logged;
  const std::string& part = event.part.empty() ? trip.part : event.part;
  if (event.step != Step::repairing && !trip.part.empty() && part != trip.part)
    raise(
        FindingKind::other_part, trip,
        trip.name() + " was " + told(event) + " as part " + part + ", and its record says part " + trip.part,
        "read the part number on the valve; look-alike valves differ in springs and lift", {ref});
  const auto* pocket = event.pocket ? pockets_.find(*event.pocket) : nullptr;
  if (event.step == Step::installing && pocket != nullptr && !pocket->part.empty() && !part.empty() &&
      part != pocket->part)
    raise(FindingKind::other_part, trip,
          trip.name() + ", part " + part + ", was " + told(event) + ", which takes part " + pocket->part,
          "read the part number on the valve and compare the spring set before the unit starts", {ref});
}

void Record::raise(FindingKind kind, const ValveTrip& trip, std::string what, std::string next,
                   std::vector<EventRef> events) {
  raised_.push_back(
      {{kind, trip.name(), trip.turnaround, std::move(what), std::move(next), std::move(events)},
       subject_words(trip)});
}

}  // namespace counterfoil
