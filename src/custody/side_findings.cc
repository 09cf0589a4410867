// Suction and discharge: what was installed against its side, what nobody could check, and pockets that the
// record has both ways.
#include <array>

#include "custody/finding_list.h"

namespace counterfoil {
namespace {

std::vector<std::string> side_subjects(const ValveTrip& trip, const Event& event) {
  auto words = subject_words(trip);
  const std::size_t plain = words.size();
  for (std::size_t i = 0; i < plain; ++i) words.push_back(side_word(words[i]));
  if (!event.pocket) return words;
  words.push_back(subject_word(*event.pocket));
  if (event.step == Step::installing) words.push_back(side_word(subject_word(*event.pocket)));
  return words;
}

Finding disagreement(const ValveTrip& trip, const LoggedEvent& logged, const std::string& conflict) {
  const auto& [ref, event] = logged;
  std::string what = trip.name() + " was " + told(event) + " although sides disagree: " + conflict;
  if (!event.second.empty()) what += " (second person: " + event.second + "; reason: " + event.reason + ")";
  return {FindingKind::side_disagreement,
          trip.name(),
          trip.turnaround,
          std::move(what),
          event.step == Step::installing
              ? "look at the valve before the unit starts; take it out if it is of the other side"
              : "look at the valve and at the pocket; if the tag is wrong, issue a new one",
          {ref}};
}

}  // namespace

void Record::check_side(ValveTrip& trip, const Entry& entry, bool late) {
  const auto& [ref, event] = entry.logged;
  if (event.step != Step::removing && event.step != Step::installing) return;
  const auto recorded = event.pocket ? side_of(*event.pocket) : std::nullopt;
  const auto conflict = side_conflict(event, &trip, recorded);
  if (!late)
    for (const auto& word : subject_words(trip)) settled_[side_word(word)] = entry.sequence;
  if (conflict) {
    Finding finding = disagreement(trip, entry.logged, *conflict);
    for (const auto& before : trip.overrides) {
      finding.what += "; against its side it also was " + told(this->entry(before).logged.event);
      finding.events.push_back(before);
    }
    raised_.push_back({std::move(finding), side_subjects(trip, event)});
    trip.overrides.push_back(ref);
  } else if (!late) {
    trip.overrides.clear();
    const bool known = event.pocket && (event.pocket->side || recorded) && trip.own_side();
    if (event.step == Step::installing && !known) unchecked_.push_back(entry.sequence);
  }
}

void FindingList::add_sides() {
  for (const std::size_t sequence : record_.unchecked_) add_unchecked(sequence);
  for (const auto& [name, pocket] : record_.pockets_.all()) add_two_sides(pocket);
}

// By what the record has learned since.
void FindingList::add_unchecked(std::size_t sequence) {
  const ValveTrip& trip = trip_at(sequence);
  const LoggedEvent& logged = record_.entries_[sequence].logged;
  const Event& event = logged.event;
  const auto recorded = event.pocket ? record_.side_of(*event.pocket) : std::nullopt;
  if (const auto conflict = side_conflict(event, &trip, recorded))
    return add(disagreement(trip, logged, *conflict), side_subjects(trip, event));
  const bool knows_pocket = event.pocket && (event.pocket->side || recorded);
  const bool knows_valve = trip.own_side().has_value();
  if (knows_pocket && knows_valve) return;
  std::string what = trip.name() + " was installed in ";
  what += event.pocket ? event.pocket->text() : "a pocket that was not named";
  if (!knows_pocket) what += ", whose side is not known";
  if (!knows_valve) what += ", and the valve's own side is not known";
  add({FindingKind::side_unchecked,
       trip.name(),
       trip.turnaround,
       what + ": suction or discharge was not checked",
       "look at the valve and the pocket; then settle it with what was seen",
       {logged.ref}},
      side_subjects(trip, event));
}

void FindingList::add_two_sides(const PocketLog::Known& pocket) {
  const std::string word = subject_word(pocket.pocket);
  const auto settled = record_.settled_.find(word);
  std::array<const LoggedEvent*, 2> first = {};  // that says so, by side
  std::array<Side, 2> order = {Side::suction, Side::discharge};
  const auto of = [&first](Side side) -> const LoggedEvent*& {
    return first.at(static_cast<std::size_t>(side));
  };
  for (const auto& [side, sequence] : pocket.statements) {
    // A settling closes what was said before it, so that only what is said anew counts against each other.
    if (settled != record_.settled_.end() && settled->second > sequence) continue;
    if (of(side) != nullptr || trip_at(sequence).voided) continue;
    if (of(order[0]) == nullptr && side == order[1]) std::swap(order[0], order[1]);
    of(side) = &record_.entries_[sequence].logged;
  }
  const LoggedEvent* one = of(order[0]);
  const LoggedEvent* other = of(order[1]);
  if (one == nullptr || other == nullptr) return;
  const bool two_logs = one->ref.origin != other->ref.origin;
  const auto said = [&](Side side, const LoggedEvent& logged) {
    return std::string(to_text(side)) + " by " + entry_name(logged.ref, two_logs);
  };
  add({FindingKind::pocket_two_sides,
       pocket.pocket.text(),
       trip_at(sequence_of(other->ref)).turnaround,
       pocket.pocket.text() + " is " + said(order[0], *one) + " and " + said(order[1], *other),
       "look at the unit's map and at the pocket; void the pairs that show the wrong side",
       {one->ref, other->ref}},
      {word});
}

std::string FindingList::entry_name(const EventRef& ref, bool with_desk) const {
  const std::string name = "entry " + std::to_string(ref.position);
  if (!with_desk) return name;
  const auto desk = record_.desks_.find(ref.origin);
  return name + " of " + (desk == record_.desks_.end() ? ref.origin : desk->second.name);
}

}  // namespace counterfoil
