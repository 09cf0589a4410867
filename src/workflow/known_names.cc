#include "workflow/known_names.h"

#include <algorithm>

#include "base/text.h"

namespace counterfoil {
namespace {

void add_once(std::vector<std::string>& names, const std::string& name) {
  if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

}  // namespace

std::vector<Pocket> KnownNames::pockets() const {
  std::vector<Pocket> out;
  // What pairs were issued for comes first: a list was looked at by more eyes than a hurried entry.
  for (const auto& [key, trip] : record_.trips())
    if (trip.meant_for) out.push_back(*trip.meant_for);
  for (const auto& [key, trip] : record_.trips()) {
    if (trip.removed_from) out.push_back(*trip.removed_from);
    if (trip.installed_in) out.push_back(*trip.installed_in);
  }
  return out;
}

std::optional<Pocket> KnownNames::pocket(const std::string& unit, const std::string& name) const {
  std::optional<Pocket> near;
  for (const auto& known : pockets()) {
    if (known.unit == unit && known.name == name) return known;
    if (!near && folded(known.unit) == folded(unit) && folded(known.name) == folded(name)) near = known;
  }
  return near;
}

std::vector<std::string> KnownNames::units_with(const std::string& pocket_name) const {
  std::vector<std::string> units;
  for (const auto& known : pockets())
    if (folded(known.name) == folded(pocket_name)) add_once(units, known.unit);
  return units;
}

std::vector<std::string> KnownNames::pockets_of(const std::string& unit) const {
  std::vector<std::string> names;
  for (const auto& known : pockets())
    if (folded(known.unit) == folded(unit)) add_once(names, known.name);
  std::sort(names.begin(), names.end());
  return names;
}

std::optional<std::string> KnownNames::serial(const std::string& typed) const {
  std::optional<std::string> near;
  for (const auto& [key, trip] : record_.trips()) {
    if (trip.serial.empty()) continue;
    if (trip.serial == typed) return typed;
    if (!near && folded(trip.serial) == folded(typed)) near = trip.serial;
  }
  return near;
}

}  // namespace counterfoil
