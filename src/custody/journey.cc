#include "custody/journey.h"

#include <array>
#include <cstdlib>

#include "custody/time_order.h"

namespace counterfoil {
namespace {

constexpr std::size_t kPlaces = 10;
constexpr std::size_t kJourneySteps = 10;

constexpr std::array<std::string_view, kPlaces> kPlaceWords = {"tag only, no valve on it yet",
                                                               "pulled, not packed",
                                                               "packed, not shipped",
                                                               "in transit, not received",
                                                               "received, not unpacked",
                                                               "on the bench",
                                                               "stored",
                                                               "installed",
                                                               "destroyed",
                                                               "not tracked"};

// Rows: Whereabouts. Columns: removing packing shipping receiving unpacking inspecting repairing storing
// installing destroying.
constexpr std::array<std::string_view, kPlaces> kMayFollow = {
    "x.........",  // tag_only
    ".x...xxxxx",  // pulled
    ".xx.x..xxx",  // packed
    "...x......",  // in_transit
    ".xx.xxxxxx",  // received
    ".x..xxxxxx",  // on_bench
    ".xx.xxxxxx",  // stored
    ".....x....",  // installed: looked at in its pocket
    "..........",  // destroyed
    ".xxxxxxxxx",  // untracked: whatever is told of it is welcome
};

constexpr std::array<std::string_view, kJourneySteps> kDone = {
    "removed",   "packed",   "shipped", "received",  "unpacked",
    "inspected", "repaired", "stored",  "installed", "destroyed"};

std::size_t column(Step step) {
  if (!is_journey_step(step)) std::abort();
  return static_cast<std::size_t>(step) - static_cast<std::size_t>(Step::removing);
}

}  // namespace

std::string_view to_text(Whereabouts whereabouts) {
  return kPlaceWords.at(static_cast<std::size_t>(whereabouts));
}

bool is_out(Whereabouts whereabouts) {
  return whereabouts >= Whereabouts::pulled && whereabouts <= Whereabouts::stored;
}

bool may_follow(Whereabouts whereabouts, Step step) {
  return kMayFollow.at(static_cast<std::size_t>(whereabouts))[column(step)] == 'x';
}

Whereabouts after(Whereabouts whereabouts, Step step) {
  switch (step) {
    case Step::removing:
      return Whereabouts::pulled;
    case Step::installing:
      return Whereabouts::installed;
    case Step::destroying:
      return Whereabouts::destroyed;
    default:
      break;
  }
  if (whereabouts == Whereabouts::untracked) return whereabouts;
  switch (step) {
    case Step::packing:
      return Whereabouts::packed;
    case Step::shipping:
      return Whereabouts::in_transit;
    case Step::receiving:
      return Whereabouts::received;
    case Step::storing:
      return Whereabouts::stored;
    case Step::inspecting:
      return whereabouts == Whereabouts::installed ? whereabouts : Whereabouts::on_bench;
    default:
      return Whereabouts::on_bench;
  }
}

bool completes(const Event& first, const Event& second) {
  return first.step == second.step && (first.step == Step::removing || first.step == Step::installing) &&
         !first.pocket && second.pocket;
}

std::string told(const Event& event) {
  std::string out(kDone.at(column(event.step)));
  if (event.pocket) {
    const bool out_of = event.step == Step::removing;
    out += (out_of ? " from " : " in ") + event.pocket->text();
  } else if (event.step == Step::shipping && !event.to.empty()) {
    out += " to " + event.to;
  } else if (event.step == Step::packing && !event.carton.empty()) {
    out += " in carton " + event.carton;
  }
  return out + " " + spoken_time(event);
}

}  // namespace counterfoil
