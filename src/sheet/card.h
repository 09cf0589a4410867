// Cards on paper: the map of a unit's pockets, and the card that keeps a valve's identity through the wash. A card
// never learns what its texts mean.
#pragma once

#include <string>
#include <vector>

#include "sheet/document.h"

namespace counterfoil {

struct MapPocket {
  // Where its box is drawn: over or under the cylinder, at the head end (outer) or the crank end (frame side). A
  // drawing of which is which, not of angles.
  enum class Place { head_over, head_under, crank_over, crank_under };
  std::string name;
  std::string side;  // "suction", "discharge", or empty: not known
  Place place = Place::head_over;
  std::string second;  // a second line: an alias, the name in another script, a number
};
struct MapCylinder {
  std::string name;  // "Throw 1, 1st stage"
  std::vector<MapPocket> pockets;
};
struct PocketMap {
  std::string unit;
  std::string viewing_rule;  // "seen facing the outer head, clockwise": how its pockets are counted
  std::string valid_from;    // the map's own date: units are re-staged
  std::vector<MapCylinder> cylinders;
};

// As many cylinders on a page as it has room for; none is broken over pages. Refuses, and leaves no file: a map
// without cylinders, without viewing rule or date, a text that does not fit at 2.8 mm, a side that is none, a cylinder
// that is higher than the page.
Result<DocumentReport> draw_pocket_map(const DocumentOrder& order, const PocketMap& map);

struct TrayCard {
  std::string number, payload;
  std::string side, unit, pocket, part, desk;
  std::vector<std::string> steps;  // "washed", "dried": a box to tick for each, up to 12
  std::string note;
};

// A card a page; the paper is best A5 across, 210 x 148 mm. Refuses as above, and a card without number or symbol.
Result<DocumentReport> draw_tray_cards(const DocumentOrder& order, const std::vector<TrayCard>& cards);

}  // namespace counterfoil
