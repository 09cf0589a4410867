// Numbers that nobody issued or that were withdrawn too early, halves that do not match, valves that are not
// back.
#include "custody/finding_list.h"
#include "custody/time_order.h"

namespace counterfoil {
namespace {

constexpr std::int64_t kDaySeconds = 86400;

// "bag half", "bag and box halves".
// "the bag half of K7...", with the verb: " was found" or " were found".
std::string halves_found(const Event& event, const std::string& name) {
  std::set<Half> kinds;
  for (const auto& half : event.halves) kinds.insert(half.half);
  if (kinds.empty()) return "neither half of " + name + " was found";
  std::string out;
  for (const Half half : kinds) out += (out.empty() ? "the " : " and ") + std::string(to_text(half));
  return out + (kinds.size() == 1 ? " half of " : " halves of ") + name +
         (kinds.size() == 1 ? " was found" : " were found");
}

}  // namespace

void FindingList::add_numbers() {
  for (const auto& [key, trip] : record_.trips_) {
    if (trip.number && !trip.issued && !is_foreign(trip)) {
      const bool known = !is_of_unknown_desk(trip);
      add(known ? FindingKind::never_issued : FindingKind::issued_elsewhere, trip,
          trip.name() + (known ? " was never issued, though its desk is in this record"
                               : " bears the prefix " + trip.number->prefix() +
                                     " of a desk that is not in this record"),
          known ? "read the number on the tag again; if it is right, ask who made the tag"
                : "ask the desk that issues " + trip.number->prefix() + " for its entries",
          {trip.history.front()});
    }
    if (trip.voided && !trip.carried_on && is_out(trip.whereabouts))
      add(FindingKind::untagged, trip,
          trip.name() + " was voided (" + trip.void_reason +
              ") while its valve is out: " + std::string(to_text(trip.whereabouts)),
          "find the valve and issue a new tag for it",
          {trip.journey.empty() ? *trip.voiding : trip.journey.back(), *trip.voiding});
  }
}

void FindingList::add_matchings() {
  for (const auto& [key, trip] : record_.trips_) {
    if (!trip.last_matching) continue;
    const Event& event = event_of(*trip.last_matching);
    std::vector<EventRef> events = {*trip.last_matching};
    const std::string found = halves_found(event, trip.name());
    const std::string other = event.other ? event.other->grouped() : "another number";
    switch (*event.verdict) {
      case Verdict::matched:
      case Verdict::not_issued:
        break;  // a number that nobody issued is told of as such
      case Verdict::swapped:
        if (const auto* twin = event.other ? record_.find(*event.other) : nullptr;
            twin != nullptr && twin->last_matching && event_of(*twin->last_matching).other == trip.number)
          events.push_back(*twin->last_matching);
        add(FindingKind::swapped, trip, found + " with a half of " + other + " " + spoken_time(event),
            "read the tags on both bags and both boxes, put each bag in its own box, and match again",
            std::move(events));
        break;
      case Verdict::crowded:
        add(FindingKind::crowded, trip,
            found + " " + spoken_time(event) + " with more than one bag in the box" +
                (event.other ? ", among them " + other : ""),
            "open the box; give each valve its own box, and match again", std::move(events));
        break;
      case Verdict::doubled:
        add(FindingKind::doubled, trip,
            found + " " + spoken_time(event) + " twice over: two tags, or one in two places",
            "find both; if two valves carry this number, issue a new tag for one", std::move(events));
        break;
      case Verdict::alone:
        add(FindingKind::alone, trip,
            (event.halves.empty() ? "" : "only ") + found + " " + spoken_time(event),
            "look for the other half; if it is lost, reprint it under the same number, and match again",
            std::move(events));
        break;
      case Verdict::voided:
        if (trip.voiding) events.push_back(*trip.voiding);
        add(FindingKind::after_end, trip, found + " " + spoken_time(event) + ", and that number is voided",
            "take the voided tag off; issue a new tag if the valve is still on its way", std::move(events));
        break;
      case Verdict::old_copy:
        add(FindingKind::old_copy, trip, found + " " + spoken_time(event) + " as an old copy",
            "destroy the old copy, tie or stick the newest one, and match again", std::move(events));
        break;
    }
  }
}

void FindingList::add_overdue() {
  const std::string today = date_text(today_);
  for (const auto& [key, trip] : record_.trips_) {
    if (trip.journey.empty() || !is_out(trip.whereabouts)) continue;
    const EventRef& last = trip.journey.back();
    const std::string where =
        std::string(to_text(trip.whereabouts)) + (trip.place.empty() ? "" : ": " + trip.place);
    if (!trip.due.empty()) {
      if (today > trip.due)
        add(FindingKind::not_back, trip, trip.name() + " was due back on " + trip.due + "; it is " + where,
            "ask where it is, and log a new due date or its receiving", {last});
    } else if (trip.whereabouts == Whereabouts::in_transit) {
      const std::int64_t days = (to_seconds(today_) - to_seconds(event_of(last).at)) / kDaySeconds;
      if (days > transit_days_)
        add(FindingKind::not_back, trip,
            trip.name() + " is in transit for " + std::to_string(days) + " days; it is " + where,
            "ask the receiver for the receiving entry, and the carrier if there is none", {last});
    }
  }
}

}  // namespace counterfoil
