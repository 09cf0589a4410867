#include "custody/finding_list.h"

#include <algorithm>
#include <tuple>

namespace counterfoil {

std::vector<std::string> subject_words(const ValveTrip& trip) {
  std::vector<std::string> out;
  if (trip.number) out.push_back(trip.number->text());
  if (!trip.serial.empty()) out.push_back("serial:" + trip.serial);
  return out;
}

std::string subject_word(const Pocket& pocket) { return "pocket:" + pocket.text(); }

std::string side_word(const std::string& subject) { return "side of " + subject; }

FindingList::FindingList(const Record& record, const Moment& today, int transit_days)
    : record_(record), today_(today), transit_days_(transit_days), no_storeroom_(!record.desks_.empty()) {
  for (const auto& [origin, desk] : record_.desks_) {
    prefixes_.insert(desk.prefix);
    if (desk.role == "storeroom") no_storeroom_ = false;
  }
}

bool FindingList::is_of_unknown_desk(const ValveTrip& trip) const {
  return trip.number && !trip.issued && !prefixes_.contains(trip.number->prefix());
}

std::vector<Finding> Record::findings(const Moment& today, int transit_days) const {
  FindingList list(*this, today, transit_days);
  list.add_raised();
  list.add_journeys();
  list.add_sides();
  list.add_numbers();
  list.add_matchings();
  list.add_overdue();
  list.add_serials();
  list.add_pockets();
  list.add_unremoved();
  return std::move(list).sorted();
}

bool FindingList::is_settled(const Finding& finding, const std::vector<std::string>& subjects,
                             std::size_t last) const {
  const auto later = [&](const Record::Settled& settled, const std::string& subject) {
    const auto found = settled.find(subject);
    return found != settled.end() && found->second > last;
  };
  // A withdrawn number does not take the valve out of the wrong pocket.
  const bool withdraws =
      finding.kind != FindingKind::side_disagreement && finding.kind != FindingKind::side_unchecked;
  return std::any_of(subjects.begin(), subjects.end(), [&](const std::string& subject) {
    return later(record_.settled_, subject) || (withdraws && later(record_.withdrawn_, subject));
  });
}

void FindingList::add(Finding finding, const std::vector<std::string>& subjects) {
  const auto by_sequence = [this](const EventRef& a, const EventRef& b) {
    return sequence_of(a) < sequence_of(b);
  };
  std::sort(finding.events.begin(), finding.events.end(), by_sequence);
  finding.events.erase(std::unique(finding.events.begin(), finding.events.end()), finding.events.end());
  if (is_settled(finding, subjects, sequence_of(finding.events.back()))) return;
  const std::size_t first = sequence_of(finding.events.front());
  for (const auto& ref : finding.events)
    if (const auto words = likeness_words(record_.entry(ref).logged.event.halves); !words.empty())
      finding.next += "; entry " + std::to_string(ref.position) + " has its " + words +
                      ": compare the number on the tag first";
  found_.push_back({first, std::move(finding)});
}

void FindingList::add(FindingKind kind, const ValveTrip& trip, std::string what, std::string next,
                      std::vector<EventRef> events) {
  add({kind, trip.name(), trip.turnaround, std::move(what), std::move(next), std::move(events)},
      subject_words(trip));
}

void FindingList::add_raised() {
  for (const auto& raised : record_.raised_) add(raised.finding, raised.subjects);
}

std::vector<Finding> FindingList::sorted() && {
  std::stable_sort(found_.begin(), found_.end(), [](const Sorted& a, const Sorted& b) {
    return std::tie(a.finding.kind, a.first) < std::tie(b.finding.kind, b.first);
  });
  std::vector<Finding> out;
  out.reserve(found_.size());
  for (auto& item : found_) out.push_back(std::move(item.finding));
  return out;
}

}  // namespace counterfoil
