#include "workflow/candidates.h"

#include <algorithm>
#include <tuple>

#include "base/text.h"

namespace counterfoil {

std::string retirement(const ValveTrip& trip) {
  if (trip.voided) return "voided: " + trip.void_reason;
  if (trip.whereabouts == Whereabouts::installed)
    return "used up: installed" + (trip.installed_in ? " in " + trip.installed_in->text() : std::string());
  if (trip.whereabouts == Whereabouts::destroyed) return "used up: destroyed";
  return {};
}

std::vector<Candidate> candidates(const Record& record, std::string_view typed) {
  const SmudgedNumber smudged(typed);
  std::vector<Candidate> out;
  for (const auto& [key, trip] : record.trips()) {
    if (!trip.number) continue;
    if (const auto fit = smudged.fit(*trip.number)) out.push_back({&trip, *fit, retirement(trip)});
  }
  const auto rank = [](const Candidate& one) {
    return std::tuple(one.fit != Fit::as_typed, !one.retired.empty(), one.fit);
  };
  // The record has them by number already.
  std::stable_sort(out.begin(), out.end(),
                   [&](const Candidate& a, const Candidate& b) { return rank(a) < rank(b); });
  return out;
}

std::string tag_line(const ValveTrip& trip) {
  std::string line = trip.name() + "  ";
  const auto& pocket = trip.removed_from ? trip.removed_from : trip.meant_for;
  line += pocket ? pocket->text() : trip.label ? "identification label" : "no pocket on record";
  if (pocket && pocket->side) line += " (" + std::string(to_text(*pocket->side)) + ")";
  if (!trip.turnaround.empty()) line += ", " + trip.turnaround;
  const std::string retired = retirement(trip);
  line += ", " + (retired.empty() ? std::string(to_text(trip.whereabouts)) : "RETIRED, " + retired);
  if (retired.empty() && !trip.place.empty()) line += ": " + trip.place;
  return line;
}

std::string candidate_list(const std::vector<Candidate>& found, bool whole) {
  if (found.empty()) return {};
  std::string list = "hold these numbers on record against the tag, likeliest first, and type the right one:";
  for (std::size_t i = 0; i < found.size() && i < kMostCandidates; ++i)
    list += "\n    " + tag_line(*found[i].trip) +
            (!whole && found[i].fit != Fit::as_typed ? " [one slip besides]" : "");
  if (found.size() > kMostCandidates)
    list += "\n    ... and " + std::to_string(found.size() - kMostCandidates) +
            " more: read more characters of the number";
  return list;
}

}  // namespace counterfoil
