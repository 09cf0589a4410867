// Cards and lists for tests and for sample-labels, filled with the invented scenario.
#pragma once

#include <string>
#include <vector>

#include "sheet/card.h"
#include "sheet/list.h"

namespace counterfoil {

inline DocumentOrder sample_paper(SheetFormat format, std::string path) {
  DocumentOrder order;
  order.format = format;
  order.path = std::move(path);
  order.created = "2026-11-25T09:30:15Z";
  return order;
}

// The same number never comes twice; check characters are not looked at here.
inline std::string sample_number(int index) {
  const std::string digits = std::to_string(1000 + index * 37 % 9000);
  return "K7" + digits.substr(0, 2) + " " + digits.substr(2) + "8X 61";
}
inline std::string sample_payload(int index) {
  std::string number = sample_number(index);
  std::erase(number, ' ');
  return "CF1." + number + ".BOX1";
}

inline CartonList sample_carton(int lines) {
  CartonList carton{"C3", "Žďár storeroom", "Kettle Valves, 12 Mill Lane", "2026-11-24", {}};
  for (int i = 0; i < lines; ++i)
    carton.lines.push_back(
        {sample_number(i), sample_payload(i), "U" + std::to_string(2 + i % 3 * 2),
         i % 4 == 3 ? "2nd stage, OB, 1D, near the cooler" : "2 HE S" + std::to_string(i % 9 + 1),
         i % 5 == 4   ? ""
         : i % 2 == 0 ? "suction"
                      : "discharge",
         "CV-118-B SP3"});
  return carton;
}

inline PickList sample_pick(int lines) {
  PickList pick{"TA26", "U2 from the frame outwards, top before bottom; then U4", {}};
  for (int i = 0; i < lines; ++i)
    pick.lines.push_back({i < lines / 2 ? "U2" : "U4",
                          std::to_string(i / 4 + 1) + (i % 4 < 2 ? " HE " : " CE ") +
                              (i % 2 == 0 ? "S" : "D") + std::to_string(i % 3 + 1),
                          i % 2 == 0 ? "suction" : "discharge", sample_number(i), sample_payload(i),
                          "V-31" + std::to_string(i % 10)});
  return pick;
}

inline PocketMap sample_map(int cylinders) {
  using Place = MapPocket::Place;
  PocketMap map{"U2",
                "seen facing the outer head of each cylinder, counted clockwise from twelve o'clock",
                "2026-11-02",
                {}};
  for (int i = 1; i <= cylinders; ++i) {
    const std::string throw_name = std::to_string(i);
    MapCylinder cylinder{"Throw " + throw_name + (i % 2 == 1 ? ", 1st stage" : ", 2nd stage"), {}};
    for (const auto& [name, side, place] : {std::tuple{" HE S1", "suction", Place::head_over},
                                            {" HE S2", "suction", Place::head_over},
                                            {" HE D1", "discharge", Place::head_under},
                                            {" HE D2", "discharge", Place::head_under},
                                            {" CE S1", "suction", Place::crank_over},
                                            {" CE D1", "discharge", Place::crank_under}})
      cylinder.pockets.push_back(
          {throw_name + name, side, place, i == 2 ? "πίσω / " + throw_name + name : ""});
    if (i == 3) cylinder.pockets.back().side = "";
    map.cylinders.push_back(std::move(cylinder));
  }
  return map;
}

inline std::vector<TrayCard> sample_trays() {
  std::vector<TrayCard> cards;
  for (int i = 0; i < 3; ++i)
    cards.push_back({sample_number(i),
                     sample_payload(i),
                     i == 0   ? "suction"
                     : i == 1 ? "discharge"
                              : "",
                     i == 2 ? "" : "U2",
                     i == 2 ? "" : "2 HE S1",
                     "CV-118-B SP3",
                     "Žďár storeroom",
                     {"photographed as received", "taken apart, parts counted", "washed, by itself", "dried",
                      "inspected", "springs and plates beside this card"},
                     "One valve a tray. Numbers are read from this card, not remembered."});
  return cards;
}

inline DocumentOrder sample_tray_paper(SheetFormat format, std::string path) {
  DocumentOrder order = sample_paper(format, std::move(path));
  order.page_width_mm = 210;
  order.page_height_mm = 148;
  return order;
}

}  // namespace counterfoil
