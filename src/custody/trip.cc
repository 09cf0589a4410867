#include "custody/record.h"

namespace counterfoil {

std::string ValveTrip::name() const { return number ? number->grouped() : serial; }

std::optional<Side> ValveTrip::own_side() const {
  if (removed_from && removed_from->side) return removed_from->side;
  if (meant_for && meant_for->side) return meant_for->side;
  return side_before;
}

std::optional<Side> ValveTrip::side() const {
  if (const auto own = own_side()) return own;
  return installed_in ? installed_in->side : std::nullopt;
}

bool ValveTrip::is_open() const {
  return !voided && (whereabouts == Whereabouts::tag_only || is_out(whereabouts));
}

Whereabouts ValveTrip::after_step(Whereabouts before, Step step) const {
  return label && step == Step::removing ? Whereabouts::untracked : after(before, step);
}

std::optional<std::string> side_conflict(const Event& event, const ValveTrip* trip,
                                         std::optional<Side> recorded) {
  if (event.step != Step::removing && event.step != Step::installing) return std::nullopt;
  if (!event.pocket) return std::nullopt;
  const auto word = [](Side side) { return std::string(to_text(side)); };
  const std::string place = event.pocket->text();
  const auto stated = event.pocket->side;
  if (stated && recorded && *stated != *recorded)
    return place + " is a " + word(*recorded) + " pocket by the record, and a " + word(*stated) +
           " pocket by this entry";
  const auto pocket = stated ? stated : recorded;
  if (!pocket || trip == nullptr) return std::nullopt;
  // Out of where it was put: the installation has been told of.
  if (event.step == Step::removing && trip->installed_in && trip->installed_in->text() == place)
    return std::nullopt;
  const bool tag_rules = event.step == Step::removing && trip->meant_for && trip->meant_for->side;
  const auto valve = tag_rules ? trip->meant_for->side : trip->side();
  if (!valve || *valve == *pocket) return std::nullopt;
  return (tag_rules ? "the tag " : "the valve ") + trip->name() + " is for " + word(*valve) + ", and " +
         place + " is a " + word(*pocket) + " pocket";
}

}  // namespace counterfoil
