#include "workflow/log_checks.h"

#include <algorithm>

namespace counterfoil {
namespace {

Error stop(const std::string& disagreement) {
  return refused(
      "STOP: " + disagreement + "; nothing was logged",
      "look at the valve before you go on: a valve on the wrong side can wreck the machine and hurt people. "
      "If the entry is right all the same, a second person looks too; then log it with "
      "--second NAME --reason TEXT");
}

}  // namespace

Result<void> settle_pocket(Event& event, const ValveTrip* trip, const KnownNames& known,
                           std::vector<std::string>& notes) {
  if (event.step != Step::removing && event.step != Step::installing) return {};
  const std::optional<Pocket> on_tag =
      trip == nullptr ? std::nullopt : (trip->meant_for ? trip->meant_for : trip->removed_from);
  if (!event.pocket || event.pocket->name.empty()) {
    const auto stated_side = event.pocket ? event.pocket->side : std::nullopt;
    if (event.pocket && !event.pocket->unit.empty())
      return malformed("the pocket is missing", "give --pocket, as the unit's map names it");
    // Where the record says that it sits; a tag only tells where it was first.
    const auto sits = trip != nullptr && trip->installed_in ? trip->installed_in : on_tag;
    if (event.step == Step::removing && sits) {
      event.pocket = sits;
      if (stated_side) event.pocket->side = stated_side;
      notes.push_back((sits == on_tag ? "pocket taken from the tag: " : "pocket taken from the record: ") +
                      sits->text());
      return {};
    }
    if (event.pocket && stated_side)
      return malformed("a side without a pocket says nothing", "give --pocket too");
    event.pocket.reset();
    notes.push_back(
        "NO POCKET WAS STATED, so the side was not checked; log it again with --unit and --pocket");
    return {};
  }
  Pocket& pocket = *event.pocket;
  if (pocket.unit.empty()) {
    // The tag's unit is meant when it has such a pocket; else a guess would put the valve somewhere else.
    if (!on_tag || !known.pocket(on_tag->unit, pocket.name)) {
      std::string units;
      for (const auto& unit : known.units_with(pocket.name)) units += (units.empty() ? "" : ", ") + unit;
      return malformed("the unit is missing",
                       units.empty() ? "give --unit: no unit on record has a pocket " + pocket.name
                                     : "give --unit; " + units + " has a pocket of that name");
    }
    pocket.unit = on_tag->unit;
    notes.push_back("unit taken from the tag: " + pocket.unit);
  }
  const auto meant = known.pocket(pocket.unit, pocket.name);
  if (meant && (meant->unit != pocket.unit || meant->name != pocket.name))
    notes.push_back("taken for " + meant->text() + ", as the record spells it");
  if (meant) {
    pocket.unit = meant->unit;
    pocket.name = meant->name;
    return {};
  }
  std::string names;
  for (const auto& name : known.pockets_of(pocket.unit)) names += (names.empty() ? "" : ", ") + name;
  notes.push_back("pocket " + pocket.text() + " is new to the record" +
                  (names.empty() ? "" : "; " + pocket.unit + " has " + names));
  return {};
}

Result<void> check_side(Event& event, const ValveTrip* trip, const Record& record,
                        std::vector<std::string>& notes) {
  if (!event.pocket) return {};
  const auto recorded = record.side_of(*event.pocket);
  const auto conflict = side_conflict(event, trip, recorded);
  if (conflict && (event.second.empty() || event.reason.empty())) return stop(*conflict);
  if (conflict) notes.push_back(*conflict + "; logged because " + event.second + " confirmed it");
  if (!event.pocket->side) event.pocket->side = recorded;
  if (event.step != Step::installing) return {};
  if (!event.pocket->side)
    notes.push_back("SIDE NOT CHECKED: the record does not know the side of " + event.pocket->text() +
                    "; look, and say it with --side");
  else if (trip == nullptr || !trip->side())
    notes.push_back(
        "SIDE NOT CHECKED: the record does not know whether this valve is suction or discharge; look");
  return {};
}

void note_tag(const Desk& desk, const Event& event, const ValveTrip* trip, std::vector<std::string>& notes) {
  if (event.number && (trip == nullptr || !trip->issued)) {
    if (event.number->prefix() == desk.card().prefix)
      notes.push_back("this desk never issued this number; it was logged, and stands in the findings");
    else if (desk.card().role == "storeroom")
      notes.push_back("another desk issued this number; it was logged, and stands in the findings");
  }
  if (trip == nullptr) return;
  if (trip->voided)
    notes.push_back("this number is voided (" + trip->void_reason +
                    "); it was logged, and stands in the findings");
  for (const auto& seen : event.halves) {
    const int newest = seen.half == Half::bag   ? trip->bag_copy
                       : seen.half == Half::box ? trip->box_copy
                                                : trip->label_copy;
    if (seen.copy < newest)
      notes.push_back("the " + std::string(to_text(seen.half)) + " half is copy " +
                      std::to_string(seen.copy) + "; copy " + std::to_string(newest) +
                      " was printed since: put that one on and destroy this one");
  }
}

std::optional<EventRef> logged_before(const std::vector<LoggedEvent>& before, const Event& event) {
  for (const auto& logged : before) {
    if (logged.event.step != event.step || logged.event.number != event.number ||
        (!event.number && logged.event.serial != event.serial))
      continue;
    // Logged again to say which pocket it was: that is something new.
    if (event.pocket && !event.pocket->name.empty() && !logged.event.pocket) continue;
    const auto& kept = logged.event.evidence;
    const bool all = std::all_of(event.evidence.begin(), event.evidence.end(), [&](const Evidence& evidence) {
      return std::any_of(kept.begin(), kept.end(),
                         [&](const Evidence& k) { return k.sha256 == evidence.sha256; });
    });
    const bool same = event.evidence.empty()
                          ? event.known == TimeSource::stated && logged.event.known == TimeSource::stated &&
                                logged.event.at == event.at
                          : all;
    if (!same) continue;
    return logged.ref;
  }
  return std::nullopt;
}

}  // namespace counterfoil
