// Pockets: what went in and out, what is still in, and what a valve's next trip says about its last.
#include <map>

#include "custody/finding_list.h"

namespace counterfoil {

void FindingList::add_pockets() {
  for (const auto& [name, pocket] : record_.pockets_.all()) {
    for (std::size_t i = 1; i < pocket.moves.size(); ++i)
      add_pocket(pocket, pocket.moves[i - 1], pocket.moves[i]);
    if (pocket.moves.empty() || pocket.moves.back().filled) continue;
    const std::size_t last = pocket.moves.back().sequence;
    const ValveTrip& trip = trip_at(last);
    const LoggedEvent& logged = record_.entries_[last].logged;
    add({FindingKind::pocket_open,
         pocket.pocket.text(),
         trip.turnaround,
         trip.name() + " was " + told(logged.event) + ", and no valve was installed in " +
             pocket.pocket.text() + " since",
         "install a valve there and log it, or settle why the pocket stays open",
         {logged.ref}},
        {subject_word(pocket.pocket)});
  }
}

void FindingList::add_pocket(const PocketLog::Known& pocket, const PocketLog::Move& before,
                             const PocketLog::Move& now) {
  const ValveTrip& one = trip_at(before.sequence);
  const ValveTrip& other = trip_at(now.sequence);
  if (&one == &other) return;  // told of as the valve's own
  const LoggedEvent& first = record_.entries_[before.sequence].logged;
  const LoggedEvent& second = record_.entries_[now.sequence].logged;
  const std::string both =
      one.name() + " was " + told(first.event) + ", and " + other.name() + " was " + told(second.event);
  auto words = subject_words(one);
  for (auto& word : subject_words(other)) words.push_back(std::move(word));
  words.push_back(subject_word(pocket.pocket));
  if (before.filled == now.filled)
    return add(
        {FindingKind::pocket_twice,
         pocket.pocket.text(),
         other.turnaround,
         both + (now.filled ? ", with no removal between" : ", with no installation between"),
         now.filled
             ? "see which valve sits in the pocket, and log where the other one is"
             : "see which of the two came from another pocket, and log the installation if one is missing",
         {first.ref, second.ref}},
        words);
  if (before.filled && !one.serial.empty() && !other.serial.empty() && one.serial != other.serial)
    add({FindingKind::other_valve,
         pocket.pocket.text(),
         other.turnaround,
         both + ": serial " + one.serial + " went in and serial " + other.serial + " came out",
         "read the serials on both valves; a change of valves between was not logged",
         {first.ref, second.ref}},
        words);
}

void FindingList::add_serials() {
  for (const auto& [serial, keys] : record_.serials_) {
    for (std::size_t i = 1; i < keys.size(); ++i) {
      const ValveTrip& before = record_.trips_.at(keys[i - 1]);
      const ValveTrip& now = record_.trips_.at(keys[i]);
      if (!before.installed_in || !now.removed_from || before.journey.empty() || now.journey.empty())
        continue;
      if (before.installed_in->text() == now.removed_from->text()) continue;
      add(FindingKind::wrong_pocket, now,
          "serial " + serial + " was installed in " + before.installed_in->text() + " and removed from " +
              now.removed_from->text(),
          "read the serial again; if it is right, log how the valve moved between",
          {before.journey.back(), now.journey.front()});
    }
  }
}

void FindingList::add_unremoved() {
  std::map<std::string, const LoggedEvent*> begun;  // first removal of each turnaround
  for (const auto& entry : record_.entries_)
    if (entry.logged.event.step == Step::removing && !entry.trip.empty())
      begun.try_emplace(record_.trips_.at(entry.trip).turnaround, &entry.logged);
  for (const auto& [key, trip] : record_.trips_) {
    const auto first = begun.find(trip.turnaround);
    if (trip.turnaround.empty() || first == begun.end() || !trip.issued || trip.label || trip.voided ||
        !trip.meant_for || !trip.journey.empty() || trip.whereabouts != Whereabouts::tag_only)
      continue;
    add(FindingKind::not_removed, trip,
        trip.name() + " is meant for " + trip.meant_for->text() +
            " and no removal is logged, while other valves of " + trip.turnaround + " are out",
        "look at the pocket; log the removal with its time, or void the pair with the reason",
        {trip.history.front(), first->second->ref});
  }
}

}  // namespace counterfoil
