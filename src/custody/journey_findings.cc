// The steps of each trip against each other, in order of happening.
#include "custody/finding_list.h"
#include "custody/time_order.h"

namespace counterfoil {

// What was seen of the trip so far.
struct FindingList::Walk {
  Whereabouts whereabouts = Whereabouts::tag_only;
  const LoggedEvent* last = nullptr;
  const LoggedEvent* removal = nullptr;
  const LoggedEvent* installation = nullptr;
  const LoggedEvent* destruction = nullptr;
  const LoggedEvent* issue = nullptr;

  bool is_completed_by(const LoggedEvent& logged) const {
    return last != nullptr && completes(last->event, logged.event);
  }
};

void FindingList::add_journeys() {
  for (const auto& [key, trip] : record_.trips_) {
    Walk walk;
    walk.whereabouts = trip.began;
    if (trip.issued)
      for (const auto& ref : trip.history) {
        walk.issue = &record_.entry(ref).logged;
        if (walk.issue->event.step == Step::commissioning) break;
      }
    for (const auto& ref : trip.journey) {
      const LoggedEvent& logged = record_.entry(ref).logged;
      add_step(trip, walk, logged);
      walk.whereabouts = trip.after_step(walk.whereabouts, logged.event.step);
      walk.last = &logged;
      if (logged.event.step == Step::removing) walk.removal = &logged;
      if (logged.event.step == Step::installing) walk.installation = &logged;
      if (logged.event.step == Step::destroying) walk.destruction = &logged;
    }
  }
}

void FindingList::add_step(const ValveTrip& trip, const Walk& walk, const LoggedEvent& logged) {
  const Event& event = logged.event;
  add_time(trip, walk, logged);
  add_wrong_pocket(trip, logged);
  if (trip.voiding && sequence_of(logged.ref) > sequence_of(*trip.voiding) &&
      !surely_before(event, event_of(*trip.voiding)))
    return add(FindingKind::after_end, trip,
               trip.name() + " was voided (" + trip.void_reason + ") and after that " + told(event),
               "take the voided tag off; issue a new tag if the valve is still on its way",
               {*trip.voiding, logged.ref});
  if (walk.whereabouts == Whereabouts::destroyed && walk.destruction != nullptr)
    return add(FindingKind::after_end, trip,
               trip.name() + " was " + told(walk.destruction->event) + " and after that " + told(event),
               "find the valve that bears this tag; if it is another valve, issue a new tag for it",
               {walk.destruction->ref, logged.ref});
  if (event.step == Step::removing) return add_removal(trip, walk, logged);
  // A valve known by its serial alone may come from anywhere: a new one comes from its maker. So may, at a
  // vendor's or mechanic's desk, one with a number of somebody else's.
  if (walk.last == nullptr && (!trip.number || is_foreign(trip))) return;
  if (walk.is_completed_by(logged)) return;
  if (!may_follow(walk.whereabouts, event.step)) return add_out_of_order(trip, walk, logged);
  if (event.step == Step::packing && walk.whereabouts == Whereabouts::packed && walk.last != nullptr &&
      !event.carton.empty() && !walk.last->event.carton.empty() && event.carton != walk.last->event.carton)
    add(FindingKind::step_out_of_order, trip,
        trip.name() + " was " + told(walk.last->event) + " and " + told(event) + " with no unpacking between",
        "look in both cartons; if two boxes carry this number, issue a new tag for one",
        {walk.last->ref, logged.ref});
}

void FindingList::add_removal(const ValveTrip& trip, const Walk& walk, const LoggedEvent& logged) {
  const Event& event = logged.event;
  if (walk.whereabouts == Whereabouts::installed && walk.installation != nullptr)
    return add(FindingKind::after_end, trip,
               trip.name() + " was used up when the valve was " + told(walk.installation->event) +
                   ", and was " + told(event) + ": one tag used twice",
               "issue a new tag for the valve that was removed last, and void this number",
               {walk.installation->ref, logged.ref});
  if (walk.removal == nullptr || walk.is_completed_by(logged)) return;
  const Event& before = walk.removal->event;
  constexpr std::string_view verb = "removed ";
  const bool same = before.pocket && event.pocket && before.pocket->text() == event.pocket->text();
  add(FindingKind::removed_twice, trip,
      trip.name() + " was " + told(before) + " and again " + told(event).substr(verb.size()) +
          " with no installation between",
      same ? "if both entries tell of one removal, settle it with a word; else find both valves"
           : "find both valves; if two valves carry this number, issue a new tag for one",
      {walk.removal->ref, logged.ref});
}

void FindingList::add_out_of_order(const ValveTrip& trip, const Walk& walk, const LoggedEvent& logged) {
  const Event& event = logged.event;
  const std::string now = told(event);
  if (walk.last == nullptr)
    return add(FindingKind::step_out_of_order, trip,
               trip.name() + " was " + now + ", and no removal is logged before it",
               "log the removal with its pocket and its time; else read the number on the tag again",
               {logged.ref});
  const std::string hole = trip.name() + " was " + told(walk.last->event) + " and " + now + " with ";
  std::string missing = "no unpacking between";
  std::string next = "log the unpacking, and whether the halves agreed";
  if (walk.whereabouts == Whereabouts::installed) {
    missing = "no removal between";
    next = "if the valve is out again, log its removal; else read the number on the tag again";
  } else if (walk.whereabouts == Whereabouts::in_transit) {
    missing = "no receiving between";
    next = "ask the one who took it for the receiving entry, or log it with its time";
  } else if (event.step == Step::receiving) {
    missing = "no shipping between";
    next = "ask the one who gave it for the shipping entry, or log it with its time";
  } else if (event.step == Step::shipping || event.step == Step::unpacking) {
    missing = "no packing between";
    next = "log the packing with its time, and match the bag with the box";
  }
  add(FindingKind::step_out_of_order, trip, hole + missing, std::move(next), {walk.last->ref, logged.ref});
}

void FindingList::add_wrong_pocket(const ValveTrip& trip, const LoggedEvent& logged) {
  const Event& event = logged.event;
  if ((event.step != Step::removing && event.step != Step::installing) || !event.pocket || !trip.meant_for)
    return;
  const std::string here = event.pocket->text();
  if (here == trip.meant_for->text()) return;
  if (event.step == Step::removing)
    return add(FindingKind::wrong_pocket, trip,
               trip.name() + " is meant for " + trip.meant_for->text() + " and was " + told(event),
               "see which pocket the valve came from; if the tags of two pockets were exchanged, void both "
               "and issue "
               "new ones",
               {logged.ref});
  if (trip.removed_from && here == trip.removed_from->text()) return;
  add(FindingKind::wrong_pocket, trip,
      trip.name() + " belongs in " + (trip.removed_from ? *trip.removed_from : *trip.meant_for).text() +
          " and was " + told(event),
      "compare part and spring set with what that pocket takes, before the unit starts", {logged.ref});
}

void FindingList::add_time(const ValveTrip& trip, const Walk& walk, const LoggedEvent& logged) {
  const Event& event = logged.event;
  const std::string next =
      "check the clock of the camera and the time that was stated; entries keep their order";
  const std::size_t now = sequence_of(logged.ref);
  if (walk.last != nullptr && !walk.is_completed_by(logged) && sequence_of(walk.last->ref) < now &&
      surely_before(event, walk.last->event))
    return add(FindingKind::time_runs_back, trip,
               trip.name() + " was " + told(walk.last->event) + ", and by the next entry was " + told(event),
               next, {walk.last->ref, logged.ref});
  // A valve may be pulled before a number is issued for it, but no camera can see the tag before.
  if (walk.issue != nullptr && event.known == TimeSource::photo && !event.halves.empty() &&
      sequence_of(walk.issue->ref) < now && surely_before(event, walk.issue->event))
    add(FindingKind::time_runs_back, trip,
        trip.name() + " was issued " + spoken_time(walk.issue->event) + ", and by its photograph was " +
            told(event),
        next, {walk.issue->ref, logged.ref});
}

}  // namespace counterfoil
